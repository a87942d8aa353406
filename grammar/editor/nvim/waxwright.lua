-- Starts `waxwright lsp` for recipe files, with Neovim's own client: from Neovim 0.7 on, and without
-- a plugin. With it come, where you have set no such key: K explains, Ctrl-] goes to where a name is
-- said, ]d and [d go to the next finding and the one before, gra fixes, grn gives another name, grr
-- shows where it is used, Ctrl-X Ctrl-O offers what may stand here while you type; `:CandleTidy`
-- tidies the file. What is found on a line is shown once the cursor rests there.
-- Where there is no `waxwright`, or one without a language server, those keys say so.
-- To keep it from starting, in your own configuration: vim.g.waxwright_server = false
if vim.fn.has('nvim-0.7') == 0 then
  return
end

local newer = vim.fn.has('nvim-0.11') == 1 -- it has its own keys, completion and findings' windows
local clients = {} -- by the folder a file is in; a file may use its neighbours
local attached = {} -- the client of a buffer
local missing -- why there is no server; false: there is one; nil: not known before the first recipe

-- Messages are short: longer than a line, the next keys would answer them instead of doing their work.
local function can_start()
  if missing == nil then
    missing = false
    if vim.fn.executable('waxwright') == 0 then
      missing = 'waxwright is not on your path: install it, then restart Neovim'
    elseif not vim.fn.system({ 'waxwright', '--help' }):find('\n%s+lsp%s') then
      missing = 'this waxwright has no language server: install a newer one'
    end
  end
  return not missing
end

local function say(words, level)
  words = words:gsub('%s+', ' ')
  local room = vim.v.echospace
  if vim.fn.strdisplaywidth(words) > room then
    words = vim.fn.strcharpart(words, 0, room - 1) .. '…'
  end
  vim.notify(words, level or vim.log.levels.INFO)
end

-- What is found on the line of the cursor, in a window below it. ----------------------------------

local rest_ms = 500
local resting = (vim.uv or vim.loop).new_timer()
local window -- the one that is open, if it is
local names = { 'Error', 'Warn', 'Info', 'Hint' } -- of vim.diagnostic.severity, in highlight groups
local titles = { 'error', 'warning', 'note', 'note' }

-- Errors first; on one line from left to right.
local function findings(buffer, row)
  local found = vim.diagnostic.get(buffer, row and { lnum = row })
  table.sort(found, function(a, b)
    if a.severity ~= b.severity then
      return a.severity < b.severity
    end
    return a.lnum < b.lnum or a.lnum == b.lnum and a.col < b.col
  end)
  return found
end

-- Broken between words: a window's own wrapping would cut them anywhere.
local function add_wrapped(lines, text, indent)
  local width = math.min(76, vim.o.columns - 4)
  local line = indent
  for word in text:gmatch('%S+') do
    if line:find('%S') and vim.fn.strdisplaywidth(line .. ' ' .. word) > width then
      table.insert(lines, line .. ' ')
      line = indent .. '  '
    end
    line = line .. (line:find('%S') and ' ' or '') .. word
  end
  table.insert(lines, line .. ' ')
end

local function close_window()
  if window and vim.api.nvim_win_is_valid(window) then
    vim.api.nvim_win_close(window, true)
  end
  window = nil
end

-- Returns whether something is found there.
local function show_findings()
  local lines, groups = {}, {}
  for _, each in ipairs(findings(0, vim.api.nvim_win_get_cursor(0)[1] - 1)) do
    local code = each.code or vim.tbl_get(each, 'user_data', 'lsp', 'code')
    local first, more = each.message:match('^([^\n]*)\n?(.*)$')
    local from = #lines
    add_wrapped(lines, titles[each.severity] .. ': ' .. first .. (code and ' [' .. code .. ']' or ''), ' ')
    for row = from, #lines - 1 do
      groups[row] = 'DiagnosticFloating' .. names[each.severity]
    end
    for line in more:gmatch('[^\n]+') do
      add_wrapped(lines, line, '   ')
    end
  end
  close_window()
  if #lines == 0 then
    return false
  end
  local buffer
  buffer, window = vim.lsp.util.open_floating_preview(lines, '', {
    focusable = false,
    wrap = false,
    close_events = { 'CursorMoved', 'InsertEnter', 'TextChanged', 'BufLeave', 'WinLeave' },
  })
  for row, group in pairs(groups) do
    vim.api.nvim_buf_add_highlight(buffer, -1, group, row, 0, -1)
  end
  return true
end

-- Only where nothing else is going on: no key half typed, no other window of that kind.
local function may_show()
  local open = vim.b.lsp_floating_preview
  local other = open and open ~= window and vim.api.nvim_win_is_valid(open)
  return attached[vim.api.nvim_get_current_buf()] and vim.api.nvim_get_mode().mode == 'n' and not other
end

local function rest_again()
  resting:stop()
  resting:start(rest_ms, 0, vim.schedule_wrap(function()
    if may_show() then
      show_findings()
    end
  end))
end

local function go(count)
  if vim.diagnostic.jump then
    vim.diagnostic.jump({ count = count, float = false })
  else
    vim.diagnostic[count > 0 and 'goto_next' or 'goto_prev']({ float = false })
  end
  vim.schedule(show_findings)
end

-- At the end of a line: the words of its gravest finding; else its grams. -------------------------

-- Hints, notes for who writes the recipe, which nearly every one has, are not written there. Grams are from Neovim 0.10 on shown
-- by itself, each in its place; findings not any more from 0.11 on, unless you ask for it.
local place = vim.api.nvim_create_namespace('waxwright-ends')

local function show_ends(buffer, grams)
  vim.api.nvim_buf_clear_namespace(buffer, place, 0, -1)
  local last = vim.api.nvim_buf_line_count(buffer) - 1
  local ends = {}
  for row, labels in pairs(grams) do
    -- Not in the colour of a comment, and not right behind the text, which may be one.
    ends[row] = { '   ·  = ' .. table.concat(labels, ' + '), 'NonText' }
  end
  local told = {}
  for _, each in ipairs(not newer and vim.diagnostic.config().virtual_text and findings(buffer) or {}) do
    if each.severity <= vim.diagnostic.severity.INFO and not told[each.lnum] then
      told[each.lnum] = true
      ends[each.lnum] = { '  ■ ' .. each.message:match('^[^\n]*'), 'DiagnosticVirtualText' .. names[each.severity] }
    end
  end
  for row, text in pairs(ends) do
    if row <= last then
      vim.api.nvim_buf_set_extmark(buffer, place, row, 0, { virt_text = { text }, hl_mode = 'combine' })
    end
  end
end

local function renew_ends(buffer)
  local client = attached[buffer]
  if not client or not vim.api.nvim_buf_is_loaded(buffer) then
    return
  end
  if vim.lsp.inlay_hint then
    show_ends(buffer, {})
    return
  end
  client.request('textDocument/inlayHint', {
    textDocument = vim.lsp.util.make_text_document_params(buffer),
    range = {
      start = { line = 0, character = 0 },
      ['end'] = { line = vim.api.nvim_buf_line_count(buffer), character = 0 },
    },
  }, function(_, hints)
    local grams = {}
    for _, hint in ipairs(hints or {}) do
      local label = type(hint.label) == 'string' and hint.label or hint.label[1].value
      grams[hint.position.line] = grams[hint.position.line] or {}
      table.insert(grams[hint.position.line], (label:gsub('^= ', '')))
    end
    if vim.api.nvim_buf_is_loaded(buffer) then
      show_ends(buffer, grams)
    end
  end, buffer)
end

-- Keys, and what is done with the server's answers. -----------------------------------------------

local function tidy(client, buffer)
  client.request('textDocument/formatting', vim.lsp.util.make_formatting_params(), function(problem, edits)
    if problem then
      say(problem.message, vim.log.levels.ERROR)
    elseif edits and #edits > 0 then
      vim.lsp.util.apply_text_edits(edits, buffer, client.offset_encoding)
    elseif #vim.diagnostic.get(buffer, { severity = vim.diagnostic.severity.ERROR }) > 0 then
      say('not tidied: mend the errors first', vim.log.levels.WARN)
    else
      say('it is tidy already')
    end
  end, buffer)
end

local function renamed(problem, result, context, config)
  if problem then
    return say(problem.message, vim.log.levels.WARN)
  end
  vim.lsp.handlers['textDocument/rename'](problem, result, context, config)
  local here, others = vim.uri_from_bufnr(context.bufnr or 0), {}
  for uri in pairs(result and result.changes or {}) do
    others[uri] = uri ~= here or nil
  end
  for _, change in ipairs(result and result.documentChanges or {}) do
    others[change.textDocument.uri] = change.textDocument.uri ~= here or nil
  end
  local count = vim.tbl_count(others)
  if count > 0 then
    say(('%d other %s changed too, and not saved yet: `:wa` saves all'):format(count,
      count == 1 and 'file was' or 'files were'))
  end
end

-- Neovim's own asks for a name even where there is none.
local function rename(client, buffer)
  local at = vim.lsp.util.make_position_params(0, client.offset_encoding)
  client.request('textDocument/prepareRename', at, function(problem, found)
    if problem or not found then
      return say(problem and problem.message or 'there is no name here', vim.log.levels.WARN)
    end
    vim.ui.input({ prompt = 'New name: ', default = found.placeholder }, function(name)
      if name and name ~= '' then
        at.newName = name
        client.request('textDocument/rename', at, renamed, buffer)
      end
    end)
  end, buffer)
end

local function handlers()
  local ours = { ['textDocument/rename'] = renamed }
  if not newer then
    ours['textDocument/publishDiagnostics'] = vim.lsp.with(vim.lsp.diagnostic.on_publish_diagnostics,
      { virtual_text = false, severity_sort = true })
    ours['textDocument/hover'] = function(problem, result, context, config)
      if result and result.contents then
        vim.lsp.handlers['textDocument/hover'](problem, result, context, config)
      elseif not show_findings() then
        say('nothing to explain here')
      end
    end
  end
  return ours
end

local keys = {
  K = function() vim.lsp.buf.hover() end,
  gra = function() vim.lsp.buf.code_action() end,
  grn = rename,
  grr = function() vim.lsp.buf.references() end,
  [']d'] = function() go(1) end,
  ['[d'] = function() go(-1) end,
}

-- They are there without a server too: what they do by themselves would change the text.
local function set_keys(buffer)
  local function with_server(action)
    return function()
      if attached[buffer] and not attached[buffer].is_stopped() then
        action(attached[buffer])
      else
        say(missing or 'waxwright is not running (yet): restart Neovim if it stays so', vim.log.levels.WARN)
      end
    end
  end
  for key, action in pairs(keys) do
    if vim.fn.maparg(key, 'n') == '' then
      vim.keymap.set('n', key, with_server(function(client)
        action(client, buffer)
      end), { buffer = buffer })
    end
  end
  vim.api.nvim_buf_create_user_command(buffer, 'CandleTidy', with_server(function(client)
    tidy(client, buffer)
  end), {})
end

local function set_up(client, buffer)
  attached[buffer] = client
  vim.bo[buffer].omnifunc = 'v:lua.vim.lsp.omnifunc'
  vim.bo[buffer].tagfunc = 'v:lua.vim.lsp.tagfunc'
  -- The lines don't move aside whenever the first finding comes or the last goes.
  vim.api.nvim_buf_call(buffer, function()
    if vim.wo.signcolumn == 'auto' then
      vim.cmd('setlocal signcolumn=yes')
    end
  end)
  local group = vim.api.nvim_create_augroup('waxwright-' .. buffer, { clear = true })
  local function on(events, action)
    vim.api.nvim_create_autocmd(events, { buffer = buffer, group = group, callback = action })
  end
  on({ 'InsertLeave', 'BufEnter', 'TextChanged' }, function() renew_ends(buffer) end)
  on({ 'CursorMoved', 'InsertLeave' }, rest_again)
  on('BufUnload', function() attached[buffer] = nil end)
  if vim.lsp.inlay_hint then
    vim.lsp.inlay_hint.enable(true, { bufnr = buffer })
  end
  local there, offers = pcall(require, 'waxwright.offers')
  if newer then
    vim.bo[buffer].completeopt = 'menuone,noinsert'
  elseif there then
    offers.set_up(client, buffer, on)
  end
  renew_ends(buffer)
end

local function client_of(folder)
  if clients[folder] == nil then
    local can = vim.lsp.protocol.make_client_capabilities()
    can.textDocument.completion.completionItem.snippetSupport = false -- there is nothing to fill them in
    -- `false` where it can't be started: it is not tried for each file again.
    clients[folder] = vim.lsp.start_client({
      name = 'waxwright',
      cmd = { 'waxwright', 'lsp' },
      root_dir = folder,
      capabilities = can,
      handlers = handlers(),
      on_attach = set_up,
      on_exit = function()
        clients[folder] = false
      end,
    }) or false
  end
  return clients[folder]
end

local group = vim.api.nvim_create_augroup('waxwright', { clear = true })
vim.api.nvim_create_autocmd('DiagnosticChanged', {
  group = group,
  callback = function() -- up to 0.7 it does not say of which buffer
    vim.tbl_map(renew_ends, vim.tbl_keys(attached))
    rest_again()
  end,
})
vim.api.nvim_create_autocmd('FileType', {
  pattern = 'candle',
  group = group,
  callback = function(event)
    local name = vim.api.nvim_buf_get_name(event.buf)
    if vim.g.waxwright_server == false or name == '' or vim.bo[event.buf].buftype ~= '' then
      return
    end
    set_keys(event.buf)
    local client = can_start() and client_of(vim.fn.fnamemodify(name, ':p:h'))
    if client then
      vim.lsp.buf_attach_client(event.buf, client)
    end
  end,
})
