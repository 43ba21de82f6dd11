-- Driven by test_in_real_editors.py: what Neovim itself shows and does is written down as JSON.
local out = {}
local function wait(holds, what)
  if not vim.wait(20000, holds, 20) then error("it never came: " .. what) end
end
local function lines() return vim.api.nvim_buf_get_lines(0, 0, -1, false) end
local function ask(method, line, character, more)
  local params = vim.tbl_extend("force", {
    textDocument = { uri = vim.uri_from_bufnr(0) },
    position = { line = line, character = character },
  }, more or {})
  for _, answer in pairs(vim.lsp.buf_request_sync(0, method, params, 20000) or {}) do
    return answer.result
  end
end

wait(function() return #vim.diagnostic.get(0) == 1 end, "the problem")
local found = vim.diagnostic.get(0)[1]
out.problem = { found.message, found.lnum, found.col, found.end_col, found.source }
wait(function() return (ask("textDocument/hover", 2, 1).contents.value):find("due:") end, "the hover")
out.hover = ask("textDocument/hover", 2, 1).contents.value

-- The first fix, as Neovim applies it.
local diagnostics = { { range = { start = { line = 7, character = 7 }, ["end"] = { line = 7, character = 11 } },
  message = found.message, code = "unknown-handle", source = "backbud" } }
local range = diagnostics[1].range
local actions = ask("textDocument/codeAction", 7, 7, { range = range, context = { diagnostics = diagnostics } })
out.fixes = vim.tbl_map(function(one) return one.title end, actions)
vim.lsp.util.apply_workspace_edit(actions[1].edit, "utf-16")
out.mended = lines()[8]
wait(function() return #vim.diagnostic.get(0) == 0 end, "no problem")

-- Neovim's own completion of what stands at the end of a new line.
vim.api.nvim_buf_set_lines(0, -1, -1, false, { "", "2027-05-21", "", "ko" })
vim.api.nvim_win_set_cursor(0, { #lines(), 2 })
vim.cmd("sleep 300m")
local items = ask("textDocument/completion", #lines() - 1, 2)
out.completed = items.items[1].label
vim.api.nvim_buf_set_lines(0, -5, -1, false, {})

-- Its rename, over two files; its formatting; its jump to a card.
vim.api.nvim_win_set_cursor(0, { 8, 8 })
vim.lsp.buf.rename("snow")
wait(function() return lines()[8] == "hoshi, snow" end, "the new name")
out.renamed = lines()[8]
local cards = vim.fn.bufnr("cards.txt")
out.card = vim.api.nvim_buf_get_lines(cards, 14, 16, false)
vim.api.nvim_buf_set_lines(0, 8, 9, false, { "  watered -- dry east wind" })
vim.cmd("sleep 100m")
local edits = ask("textDocument/formatting", 0, 0, { options = { tabSize = 2, insertSpaces = true } })
vim.lsp.util.apply_text_edits(edits, vim.api.nvim_get_current_buf(), "utf-16")
out.tidied = lines()[9]
vim.api.nvim_win_set_cursor(0, { 3, 1 })
vim.lsp.buf.definition()
wait(function() return vim.fn.expand("%:t") == "cards.txt" end, "the card")
out.jumped = { vim.fn.expand("%:t"), vim.api.nvim_win_get_cursor(0)[1] }

local file = io.open(vim.env.TOLD, "w")
file:write(vim.fn.json_encode(out))
file:close()
vim.cmd("qa!")
