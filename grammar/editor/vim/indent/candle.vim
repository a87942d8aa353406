" How far a line of a recipe file is indented, for Vim and Neovim: a level more below a line that
" ends with `{`, a level less at a `}`; else as the line above.
if exists('b:did_indent')
  finish
endif
let b:did_indent = 1

setlocal indentexpr=CandleIndent(v:lnum)
setlocal indentkeys=0},o,O
setlocal nosmartindent

let b:undo_indent = 'setlocal indentexpr< indentkeys< smartindent<'

if exists('*CandleIndent')
  finish
endif

function CandleIndent(line)
  let above = prevnonblank(a:line - 1)
  let level = above == 0 ? 0 : indent(above)
  " Behind a comment's `#` no brace counts; in a text there may be a `#` too.
  let words = substitute(getline(above), '"\%(\\.\|[^"\\]\)*"', '', 'g')
  if substitute(words, '#.*', '', '') =~# '{\s*$'
    let level += shiftwidth()
  endif
  return getline(a:line) =~# '^\s*}' ? level - shiftwidth() : level
endfunction
