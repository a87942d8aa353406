-- Starts `waxwright lsp` for recipe files, with Neovim's own client: from Neovim 0.7 on, and without
-- a plugin. Where there is no `waxwright`, or one without a language server, nothing happens.
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

local function client_of(folder)
  if clients[folder] == nil then
    -- `false` where it can't be started: it is not tried for each file again.
    clients[folder] = vim.lsp.start_client({
      name = 'waxwright',
      cmd = { 'waxwright', 'lsp' },
      root_dir = folder,
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
