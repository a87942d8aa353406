-- A dialogue of Neovim's own client with `waxwright lsp`, written down as Neovim has it in the end:
-- its findings, its buffers. editor_check.py runs this headless in a copy of desk/.
local program, out = vim.env.WAXWRIGHT, assert(io.open(vim.env.DIALOGUE, "w"))

local function tell(...) out:write(string.format(...), "\n") end
local function title(words) tell("\n== %s", words) end

local function fail(why)
  out:close()
  io.stderr:write(why, "\n")
  vim.cmd("cquit 1")
end

local function wait_for(what, condition)
  if not vim.wait(30000, condition, 10) then fail("waited in vain for " .. what) end
end

-- Puts the cursor on the n-th `word` of the buffer, `further` bytes into it.
local function seek(word, n, further)
  n = n or 1
  for row, line in ipairs(vim.api.nvim_buf_get_lines(0, 0, -1, false)) do
    local at = 0
    repeat
      at = line:find(word, at + 1, true)
      if at then n = n - 1 end
      if n == 0 then
        vim.api.nvim_win_set_cursor(0, { row, at - 1 + (further or 0) })
        return
      end
    until not at
  end
  fail("there is no `" .. word .. "` in the buffer")
end

local versions = {} -- by buffer: of the text that findings came for last
local publish = vim.lsp.handlers["textDocument/publishDiagnostics"]
vim.lsp.handlers["textDocument/publishDiagnostics"] = function(problem, result, context, config)
  publish(problem, result, context, config)
  versions[vim.uri_to_bufnr(result.uri)] = result.version
end

local client_id
local function client() return vim.lsp.get_client_by_id(client_id) end

local function edit(file)
  vim.cmd("edit " .. file)
  vim.bo.swapfile = false
  vim.lsp.buf_attach_client(0, client_id)
end

-- Neovim waits a little before it sends what was typed; and not for all texts before it asks.
local function wait_till_sent()
  wait_for("findings of all texts", function()
    for buffer, version in pairs(versions) do
      if version ~= vim.lsp.util.buf_versions[buffer] then return false end
    end
    return true
  end)
end

local function file_of(uri) return vim.fn.fnamemodify(vim.uri_to_fname(uri), ":t") end

local function wait_for_rule(rule, there)
  wait_for(rule, function()
    local found = vim.tbl_filter(function(each) return each.user_data.lsp.code == rule end,
      vim.diagnostic.get(0))
    return (#found > 0) == there
  end)
end

local function findings()
  local buffer = vim.api.nvim_get_current_buf()
  wait_for("findings", function()
    return versions[buffer] ~= nil and versions[buffer] == vim.lsp.util.buf_versions[buffer]
  end)
  local severity = { "error", "warning", "information", "hint" }
  local found = vim.diagnostic.get(0)
  table.sort(found, function(a, b)
    return a.lnum * 1000 + a.col < b.lnum * 1000 + b.col
  end)
  if #found == 0 then tell("  nothing is found") end
  for _, each in ipairs(found) do
    local lsp = each.user_data.lsp
    tell("  %d:%d-%d:%d %s [%s] %s", each.lnum + 1, each.col + 1, each.end_lnum + 1,
      each.end_col + 1, severity[each.severity], lsp.code, (each.message:gsub("\n", " | ")))
    for _, other in ipairs(lsp.relatedInformation or {}) do
      tell("      %s:%d: %s", file_of(other.location.uri), other.location.range.start.line + 1,
        other.message)
    end
  end
end

local function ask(method, more)
  local params = vim.tbl_extend("force", vim.lsp.util.make_position_params(0, "utf-16"), more or {})
  local answers, problem = vim.lsp.buf_request_sync(0, method, params, 30000)
  if problem then fail(method .. ": " .. problem) end
  local answer = answers[client_id]
  if answer.error then
    tell("  refused: %s", answer.error.message)
    return nil
  end
  return answer.result
end

local function show(from, to)
  for _, line in ipairs(vim.api.nvim_buf_get_lines(0, from, to, false)) do tell("  | %s", line) end
end

local function show_text(text)
  for _, line in ipairs(vim.split(vim.trim(text), "\n")) do tell("  | %s", line) end
end

local function place(location)
  return string.format("%s:%d:%d", file_of(location.uri), location.range.start.line + 1,
    location.range.start.character + 1)
end

local function type_over(word, n, text)
  seek(word, n)
  local row, column = unpack(vim.api.nvim_win_get_cursor(0))
  vim.api.nvim_buf_set_text(0, row - 1, column, row - 1, column + #word, { text })
end

local function opening()
  title("Open marsh.candle: its findings, and those of the file that it uses")
  client_id = vim.lsp.start_client({ name = "waxwright", cmd = { program, "lsp" },
    root_dir = vim.fn.getcwd() })
  if not client_id then fail("the server did not start") end
  wait_for("the server", function() return client() ~= nil and client().initialized end)
  edit("marsh.candle")
  findings()

  title("Type 16 where the house load, in an unsaved bench.candle, is 6: the recipe's findings")
  edit("bench.candle")
  type_over("6%", 1, "16%")
  vim.cmd("buffer! marsh.candle")
  wait_for_rule("load-over-limit", true)
  findings()
  vim.cmd("buffer! bench.candle | silent undo | buffer! marsh.candle")
  wait_for_rule("load-over-limit", false)

  title("A slip, `lavendar`; and its fix")
  type_over("scent: dusk", 1, "scent: lavendar")
  findings()
  seek("lavendar")
  local range = vim.lsp.util.make_range_params(0, "utf-16")
  local actions = ask("textDocument/codeAction",
    { range = range.range, context = { diagnostics = {} } })
  for _, action in ipairs(actions) do
    tell("  %s%s: %s", action.kind, action.isPreferred and ", sure" or "", action.title)
  end
  vim.lsp.util.apply_workspace_edit(actions[1].edit, "utf-16")
  show(8, 9)
  findings()
  vim.cmd("silent undo | silent undo")
  findings()
end

local function hovering()
  for _, each in ipairs({ { "wax:" }, { "soy" }, { "house-load" }, { "75 °C" }, { "off heat" },
    { "dusk", 2 }, { "reed-glass" } }) do
    seek(each[1], each[2])
    title("Hover over `" .. each[1] .. "`")
    local hover = ask("textDocument/hover")
    if hover == nil then tell("  nothing") else show_text(hover.contents.value) end
  end
end

local function complete(words, n)
  local result = ask("textDocument/completion",
    { context = { triggerKind = 1 } })
  local items = result and (result.items or result) or {}
  table.sort(items, function(a, b)
    return (a.sortText or a.label) < (b.sortText or b.label)
  end)
  for at, item in ipairs(items) do
    if at > (n or 8) then
      tell("  … %d more", #items - at + 1)
      break
    end
    tell("  %s%s", item.label, item.detail and "  (" .. item.detail .. ")" or "")
  end
  if #items == 0 then tell("  nothing") end
  return items
end

local function completing()
  local function on_a_line_below(word, text)
    seek(word)
    local row = vim.api.nvim_win_get_cursor(0)[1]
    vim.api.nvim_buf_set_lines(0, row, row, false, { text })
    vim.api.nvim_win_set_cursor(0, { row + 1, #text })
    vim.cmd("startinsert!")
    vim.api.nvim_win_set_cursor(0, { row + 1, #text })
  end
  for _, each in ipairs({
    { "scale:", "  ", "a new line of the recipe" },
    { "pot:", "  extras: 1 ", "extras, 1 of what?" },
    { "load:", "  headspace: 12 ", "12 of what?" },
    { "wax:", "  additives: 1% ", "additives" },
    { "off heat", "    ", "a new step" },
    { "off heat", "    let cool to 65", "what people say for it" },
    { "scale:", "  allow ", "allow which rule?" },
  }) do
    title("Complete: " .. each[3] .. " (`" .. vim.trim(each[2]) .. "`)")
    on_a_line_below(each[1], each[2])
    complete(nil, 8)
    vim.cmd("stopinsert | silent undo")
  end
end

local function naming()
  title("Where is `enamel-can` said? And where is it used?")
  seek("enamel-can")
  local found = ask("textDocument/definition")
  tell("  %s", place(vim.tbl_islist(found) and found[1] or found))
  for _, each in ipairs(ask("textDocument/references",
    { context = { includeDeclaration = true } })) do
    tell("  %s", place(each))
  end

  title("Rename it in both files")
  vim.lsp.util.apply_workspace_edit(ask("textDocument/rename", { newName = "tin-jug" }), "utf-16")
  show(10, 11)
  vim.cmd("buffer! bench.candle")
  show(6, 8)
  vim.cmd("silent undo | buffer! marsh.candle | silent undo")
  wait_till_sent()

  title("Rename it to what is taken, and the library's soy")
  seek("enamel-can")
  ask("textDocument/rename", { newName = "counter-scale" })
  seek("soy")
  ask("textDocument/rename", { newName = "beans" })
end

local function shaping()
  title("What is in the file")
  local function tree(symbols, depth)
    for _, each in ipairs(symbols or {}) do
      tell("  %s%s%s", ("  "):rep(depth), each.name, each.detail and ": " .. each.detail or "")
      tree(each.children, depth + 1)
    end
  end
  tree(ask("textDocument/documentSymbol"), 0)

  title("`glas` in all files")
  local found = ask("workspace/symbol", { query = "glas" }) or {}
  for _, each in ipairs(found) do tell("  %s in %s", each.name, place(each.location)) end

  title("What can be folded")
  for _, each in ipairs(ask("textDocument/foldingRange") or {}) do
    tell("  lines %d to %d", each.startLine + 1, each.endLine + 1)
  end

  title("Grams")
  local whole = { start = { line = 0, character = 0 }, ["end"] = { line = 99, character = 0 } }
  for _, each in ipairs(ask("textDocument/inlayHint", { range = whole }) or {}) do
    local label = type(each.label) == "table" and each.label[1].value or each.label
    tell("  %d:%d %s", each.position.line + 1, each.position.character + 1, label)
  end

  title("A crooked line, formatted")
  type_over("wax:   80% soy + rest coconut", 1, "wax:80% soy + rest   coconut")
  vim.lsp.buf.formatting_sync(nil, 30000)
  show(6, 7)
  findings()
  tell("  %s", vim.bo.modified and "" or "the buffer is as it was read")
end

local ok, problem = xpcall(function()
  opening()
  hovering()
  completing()
  naming()
  shaping()
  local server = client()
  server.stop()
  wait_for("the server's end", function() return server.is_stopped() end)
end, debug.traceback)
if not ok then fail(problem) end
out:close()
vim.cmd("qall!")
