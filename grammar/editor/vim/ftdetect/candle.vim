" Recipe files, for Vim and Neovim.
autocmd BufNewFile,BufRead *.candle setfiletype candle
