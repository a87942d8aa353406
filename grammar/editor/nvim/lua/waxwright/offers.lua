-- What may stand here, for Neovim up to 0.10: its own completion overlooks from where to where an
-- item is to be put, what else comes with it, and what it is to be found by.
local M = {}

local place = vim.api.nvim_create_namespace('waxwright-offers')
local attached = {} -- the client of a buffer
local answer_ms = 500
local brought -- where an item ended that was chosen last, and the signs at its end
local offered = {} -- row, start (a byte), items and words of the last answer

local function byte_of(line, character, encoding)
  if encoding == 'utf-8' then
    return math.min(character, #line)
  end
  local ok, byte = pcall(vim.str_byteindex, line, character, encoding == 'utf-16')
  return ok and byte or #line
end

-- How well an item goes on from what is typed: 1 as a whole, 2 from one of its words on, 3 where it
-- is another line for the one that is typed; else nil.
local function fit(item, typed)
  local text = vim.fn.tolower(item.filterText or item.label)
  return vim.startswith(text, typed) and (item.filterText and 3 or 1) or text:find('[ -]' .. vim.pesc(typed)) and 2 or nil
end

-- The items that fit, the best first, each with the bytes of the line that it replaces.
local function fitting(client, line, row, column)
  local params = vim.lsp.util.make_position_params(0, client.offset_encoding)
  params.context = { triggerKind = 1 }
  -- By its number: for buffer 0, Neovim 0.7 does not send first what was just typed.
  local buffer = vim.api.nvim_get_current_buf()
  local answer = client.request_sync('textDocument/completion', params, answer_ms, buffer)
  local result = answer and answer.result or {}
  local items = {}
  for _, item in ipairs(result.items or result) do
    local range = item.textEdit and item.textEdit.range
    if range and range.start.line == row - 1 then
      local from = byte_of(line, range.start.character, client.offset_encoding)
      local rank = fit(item, vim.fn.tolower(line:sub(from + 1, column)))
      if rank and from <= column then
        local behind = byte_of(line, range['end'].character, client.offset_encoding) - column
        table.insert(items, { item = item, from = from, behind = math.max(behind, 0),
          order = rank .. (item.sortText or item.label) })
      end
    end
  end
  table.sort(items, function(a, b)
    return a.order < b.order
  end)
  return items
end

local function word_of(each, line)
  local item = each.item
  local about = type(item.documentation) == 'table' and item.documentation.value or item.documentation or ''
  -- A word has one line; the others of an item come in `finish`.
  each.lines = vim.split(item.textEdit.newText:gsub('\r\n?', '\n'), '\n', { plain = true })
  each.word = line:sub(offered.start + 1, each.from) .. each.lines[1]
  return { word = each.word, abbr = item.label, menu = item.detail or about:match('^[^\n]*'),
    info = about, equal = 1, dup = 1, empty = 1 }
end

local function offer()
  local client = attached[vim.api.nvim_get_current_buf()]
  local row, column = unpack(vim.api.nvim_win_get_cursor(0))
  local line = vim.api.nvim_get_current_line()
  local items = client and fitting(client, line, row, column) or {}
  offered = { row = row, start = column, items = items, words = {} }
  for _, each in ipairs(items) do
    offered.start = math.min(offered.start, each.from)
  end
  for at, each in ipairs(items) do
    offered.words[at] = word_of(each, line)
    offered.words[at].user_data = 'waxwright ' .. at
  end
end

function _G.waxwright_complete(find_start, _)
  if find_start == 0 then
    return offered.words
  end
  offer()
  return #offered.words > 0 and offered.start or -3
end

-- At each letter the server is asked anew. (With `refresh` Neovim would do so too, but choose none.)
local function offer_again()
  local row, column = unpack(vim.api.nvim_win_get_cursor(0))
  local at = vim.fn.complete_info({ 'selected' }).selected + 1
  local chosen = offered.words and offered.words[at]
  local typed = vim.api.nvim_get_current_line():sub((offered.start or 0) + 1, column)
  if offered.row == row and not (chosen and chosen.word == typed) then
    offer()
    vim.fn.complete(offered.start + 1, offered.words)
  end
end

-- What a chosen item has besides its word: it may replace what stands behind the cursor, have more
-- lines, and change the file elsewhere.
local function finish(buffer)
  local data = (vim.v.completed_item or {}).user_data
  local at = type(data) == 'string' and data:match('^waxwright (%d+)$')
  local chosen = at and (offered.items or {})[tonumber(at)]
  local row, column = unpack(vim.api.nvim_win_get_cursor(0))
  local line = vim.api.nvim_get_current_line()
  if not chosen or row ~= offered.row or line:sub(offered.start + 1, column) ~= chosen.word then
    return
  end
  offered = {}
  local behind = math.min(column + chosen.behind, #line)
  local mark = vim.api.nvim_buf_set_extmark(buffer, place, row - 1, behind, {}) -- it goes to the end of the item
  vim.api.nvim_buf_set_text(buffer, row - 1, column, row - 1, behind, { '', unpack(chosen.lines, 2) })
  if chosen.item.additionalTextEdits then
    vim.lsp.util.apply_text_edits(chosen.item.additionalTextEdits, buffer, attached[buffer].offset_encoding)
  end
  local now = vim.api.nvim_buf_get_extmark_by_id(buffer, place, mark, {})
  vim.api.nvim_buf_del_extmark(buffer, place, mark)
  local last = chosen.lines[#chosen.lines]
  local quotes = vim.endswith(last, '""') and 1 or 0 -- between them the text is to be typed
  vim.api.nvim_win_set_cursor(0, { now[1] + 1, now[2] - quotes })
  brought = { row = now[1] + 1, column = now[2], signs = last:match('[:{%s]*$') }
end

-- Who types what an item has brought already, the `: ` of a key, the `{` of a block, the second quote
-- of a text, would have it twice: it is taken for the one that is there.
local function swallow()
  local row, column = unpack(vim.api.nvim_win_get_cursor(0))
  local typed = vim.v.char
  local line = vim.api.nvim_get_current_line()
  if brought and brought.row == row and brought.column == column and brought.signs:find(typed, 1, true) then
    vim.v.char = ''
  elseif typed == '"' and line:sub(column + 1) == '"' and line:sub(1, column):match('%s"[^"]*$') then
    vim.v.char = ''
    vim.api.nvim_feedkeys(vim.api.nvim_replace_termcodes('<Right>', true, true, true), 'in', false)
  else
    brought = nil
  end
end

-- Nothing is put in before it is chosen, and a single item is shown too. The option is one for all
-- buffers: it is set while you type into one of these, and then again as you had it.
local menu = 'menuone,noinsert'
local menu_before

local function set_menu(here)
  if here and not menu_before then
    menu_before, vim.o.completeopt = vim.o.completeopt, menu
  elseif not here and menu_before then
    vim.o.completeopt, menu_before = menu_before, nil
  end
end

-- Sets a buffer up: its omnifunc, and what follows a choice. `on` makes an autocommand of the buffer.
function M.set_up(client, buffer, on)
  attached[buffer] = client
  vim.bo[buffer].omnifunc = 'v:lua.waxwright_complete'
  on('TextChangedP', offer_again)
  on('CompleteDone', function() finish(buffer) end)
  on('InsertCharPre', swallow)
  on('InsertEnter', function() set_menu(true) end)
  on({ 'InsertLeave', 'BufLeave', 'BufUnload' }, function() set_menu(false) end)
end

return M
