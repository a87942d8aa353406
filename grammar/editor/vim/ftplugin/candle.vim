" How a recipe file is edited, for Vim and Neovim.
if exists('b:did_ftplugin')
  finish
endif
let b:did_ftplugin = 1

setlocal commentstring=#\ %s
setlocal comments=:#
" A line below a comment is mostly none: no `#` is put there (r, o).
setlocal formatoptions-=t formatoptions-=r formatoptions-=o formatoptions+=cql
setlocal expandtab shiftwidth=2 softtabstop=2
setlocal iskeyword+=-
setlocal suffixesadd=.candle

let b:undo_ftplugin = 'setlocal commentstring< comments< formatoptions< expandtab< shiftwidth<'
      \ . ' softtabstop< iskeyword< suffixesadd<'
