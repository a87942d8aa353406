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
  [']d'] = function()
    vim.diagnostic.goto_next()
  end,
  grr = function()
    vim.lsp.buf.references()
  end,
}

-- Grams behind percents. Neovim shows them itself from 0.10 on; before, here they are at the end of
-- their line, asked for anew when you stop typing.
local place = vim.api.nvim_create_namespace('waxwright-grams')

local function show_grams(buffer, hints)
  vim.api.nvim_buf_clear_namespace(buffer, place, 0, -1)
  local by_line = {}
  for _, hint in ipairs(hints or {}) do
    local line = by_line[hint.position.line] or {}
    local label = type(hint.label) == 'string' and hint.label or hint.label[1].value
    table.insert(line, (label:gsub('^= ', '')))
    by_line[hint.position.line] = line
  end
  for line, labels in pairs(by_line) do
    if line < vim.api.nvim_buf_line_count(buffer) then
      vim.api.nvim_buf_set_extmark(buffer, place, line, 0,
        { virt_text = { { '= ' .. table.concat(labels, ' + '), 'Comment' } }, priority = 300 })
    end
  end
end

local function ask_for_grams(client, buffer)
  client.request('textDocument/inlayHint', {
    textDocument = vim.lsp.util.make_text_document_params(buffer),
    range = {
      start = { line = 0, character = 0 },
      ['end'] = { line = vim.api.nvim_buf_line_count(buffer), character = 0 },
    },
  }, function(problem, hints)
    if not problem and vim.api.nvim_buf_is_loaded(buffer) then
      show_grams(buffer, hints)
    end
  end, buffer)
end

local function keep_grams(client, buffer)
  if vim.lsp.inlay_hint then
    vim.lsp.inlay_hint.enable(true, { bufnr = buffer })
    return
  end
  vim.api.nvim_create_autocmd({ 'CursorHold', 'InsertLeave', 'BufEnter', 'TextChanged' }, {
    buffer = buffer,
    group = vim.api.nvim_create_augroup('waxwright-grams-' .. buffer, { clear = true }),
    callback = function()
      ask_for_grams(client, buffer)
    end,
  })
  ask_for_grams(client, buffer)
end

local function set_up(client, buffer)
  keep_grams(client, buffer)
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

-- What is wrong is written beside its line. Notes, which nearly every recipe has, are only marked
-- there; `]d` goes to the next finding of any kind and shows its words. From 0.11 on Neovim writes
-- nothing beside a line unless you ask for it.
local function handlers()
  if vim.fn.has('nvim-0.11') == 1 then
    return nil
  end
  return {
    ['textDocument/publishDiagnostics'] = vim.lsp.with(vim.lsp.diagnostic.on_publish_diagnostics, {
      virtual_text = { severity = { min = vim.diagnostic.severity.WARN } },
    }),
  }
end

local function client_of(folder)
  if clients[folder] == nil then
    -- `false` where it can't be started: it is not tried for each file again.
    clients[folder] = vim.lsp.start_client({
      name = 'waxwright',
      cmd = { 'waxwright', 'lsp' },
      root_dir = folder,
      handlers = handlers(),
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
