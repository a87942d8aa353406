-- What waxwright.lua makes of a server's answers, in Neovim: neovim_client_check.py runs it headless
-- with a server of its own, whose answers stand there, and reads what is written here to `out`.
local told = {}
local function tell(name, value)
  table.insert(told, name .. ': ' .. (type(value) == 'table' and table.concat(value, '|') or tostring(value)))
end

local said = {}
vim.notify = function(words) table.insert(said, words) end

local function keys(text)
  vim.api.nvim_feedkeys(vim.api.nvim_replace_termcodes(text, true, true, true), 'tx', false)
end

local function wait(ms, condition) vim.wait(ms, condition or function() return false end, 10) end

local function lines() return vim.api.nvim_buf_get_lines(0, 0, -1, false) end

local function complete(line, before, take)
  vim.api.nvim_buf_set_lines(0, 0, -1, false, { 'language 1', line, 'end' })
  vim.api.nvim_win_set_cursor(0, { 2, 0 })
  keys('A' .. ('<Left>'):rep(before or 0) .. '<C-x><C-o>' .. (take or '<C-y>') .. '!<Esc>')
  tell('complete ' .. line, lines())
end

local function words_at_the_end()
  local marks = vim.api.nvim_buf_get_extmarks(0, vim.api.nvim_create_namespace('waxwright-ends'), 0, -1,
    { details = true })
  return vim.tbl_map(function(each) return each[2] .. each[4].virt_text[1][1] end, marks)
end

vim.cmd('edit a.candle')
wait(5000, function() return #vim.diagnostic.get(0) > 0 end)
wait(300)
tell('ends', words_at_the_end())
keys('K')
wait(5000, function() return vim.b.lsp_floating_preview end)
local window = vim.b.lsp_floating_preview
tell('findings', vim.api.nvim_buf_get_lines(vim.api.nvim_win_get_buf(window), 0, -1, false))
vim.cmd('doautocmd CursorMoved')
wait(1000, function() return not vim.api.nvim_win_is_valid(window) end)
tell('closed', not vim.api.nvim_win_is_valid(window))
for _, key in ipairs({ ']d', '[d' }) do
  keys(key)
  tell(key, vim.api.nvim_win_get_cursor(0))
end

vim.cmd('CandleTidy')
wait(5000, function() return #said > 0 end)
vim.lsp.buf.rename('tin')
wait(5000, function() return #said > 1 end)
vim.ui.input = function(options, on_name)
  tell('asked', options.prompt .. options.default)
  on_name('9')
end
keys('grn')
wait(5000, function() return #said > 2 end)
tell('said', said)
tell('longest', vim.fn.strdisplaywidth(said[#said]) <= vim.v.echospace)

complete('  LET co')
complete('  scent: PI--', 2)
complete('  scent: pin')
complete('  st')
complete('  nothing', 0, '') -- Ctrl-Y would copy a letter from above, as it does without a menu
complete('  wax', 0, '<C-y>: soy') -- as if the item had brought no `: `
complete('  not', 0, '<C-y>a"')
vim.cmd('runtime! indent/candle.vim')
vim.api.nvim_buf_set_lines(0, 0, -1, false, { '' })
keys('irecipe a {<CR>steps { # {<CR>note "{"<CR>}<CR>}<Esc>')
tell('indent', vim.tbl_map(function(row) return vim.fn.indent(row) end, { 2, 3, 4, 5 }))
tell('NUL', vim.fn.search('\\%x00', 'nw'))

tell('formatoptions', vim.bo.formatoptions:find('[ro]') == nil)
vim.cmd('autocmd InsertCharPre * let g:menu = &completeopt')
keys('Ax<Esc>')
tell('completeopt here', vim.g.menu)
tell('completeopt there', vim.o.completeopt)
vim.fn.writefile(told, 'out')
vim.cmd('qall!')
