-- Starts `waxwright lsp` for recipe files, with Neovim's own client: from Neovim 0.7 on, and without
-- a plugin. Where there is no `waxwright`, or one without a language server, nothing happens.
-- With it come, where you have set no such key: K explains, Ctrl-] goes to where a name is said, gra
-- fixes, grn gives another name, grr shows where it is used, Ctrl-X Ctrl-O offers what may stand here
-- while you type; `:CandleTidy` tidies the file.
-- To keep it from starting, in your own configuration: vim.g.waxwright_server = false
if vim.fn.has('nvim-0.7') == 0 then
  return
end

local clients = {} -- by the folder a file is in; a file may use its neighbours
local has_server -- not known before the first recipe file is opened

local function can_start()
  if vim.g.waxwright_server == false then
    return false
  end
  if has_server == nil then
    has_server = false
    if vim.fn.executable('waxwright') == 1 then
      has_server = vim.fn.system({ 'waxwright', '--help' }):find('\n%s+lsp%s') ~= nil
    end
  end
  return has_server
end

local keys = {
  K = function()
    vim.lsp.buf.hover()
  end,
  gra = function()
    vim.lsp.buf.code_action()
  end,
  grn = function()
    vim.lsp.buf.rename()
  end,
  grr = function()
    vim.lsp.buf.references()
  end,
}

local function set_up(_, buffer)
  vim.bo[buffer].omnifunc = 'v:lua.vim.lsp.omnifunc'
  vim.bo[buffer].tagfunc = 'v:lua.vim.lsp.tagfunc'
  for key, action in pairs(keys) do
    if vim.fn.maparg(key, 'n') == '' then
      vim.keymap.set('n', key, action, { buffer = buffer })
    end
  end
  vim.api.nvim_buf_create_user_command(buffer, 'CandleTidy', function()
    local tidy = vim.lsp.buf.format or vim.lsp.buf.formatting -- from 0.8 on; before
    tidy()
  end, {})
end

local function client_of(folder)
  if clients[folder] == nil then
    -- `false` where it can't be started: it is not tried for each file again.
    clients[folder] = vim.lsp.start_client({
      name = 'waxwright',
      cmd = { 'waxwright', 'lsp' },
      root_dir = folder,
      on_attach = set_up,
      on_exit = function()
        clients[folder] = false
      end,
    }) or false
  end
  return clients[folder]
end

vim.api.nvim_create_autocmd('FileType', {
  pattern = 'candle',
  group = vim.api.nvim_create_augroup('waxwright', { clear = true }),
  callback = function(event)
    local name = vim.api.nvim_buf_get_name(event.buf)
    if name == '' or vim.bo[event.buf].buftype ~= '' or not can_start() then
      return
    end
    local client = client_of(vim.fn.fnamemodify(name, ':p:h'))
    if client then
      vim.lsp.buf_attach_client(event.buf, client)
    end
  end,
})
