-- Neovim completes and checks book.yaml and the fields at the head of recipes and batches, by yaml-language-server
-- (npm install -g yaml-language-server) and the schemas in .schemas. After `:set exrc`, begin it in this folder: it asks
-- once whether it may (before 0.9 it does not look; type `:luafile .nvim.lua`). `:make` runs `gristbook check`, which
-- finds all there is, and `:copen` lists it with its places.
local home = vim.fn.getcwd()
vim.o.makeprg = "gristbook check ."
vim.o.errorformat = "%f:%l:%c: %trror: %m,%f:%l:%c: %tarning: %m,%-G%.%#"

local function schema(kind) return vim.uri_from_fname(home .. "/.schemas/" .. kind .. ".json") end

-- What stands below the fields is prose, of which no reader of YAML makes sense.
local function above_the_prose(fault, told, context, config)
  if told and told.uri:match("%.md$") then
    local lines, last = vim.api.nvim_buf_get_lines(vim.uri_to_bufnr(told.uri), 1, -1, false), 0
    for number, line in ipairs(lines) do
      if line:match("^%-%-%-%s*$") then last = number break end
    end
    told.diagnostics = vim.tbl_filter(function(it) return it.range.start.line < last end, told.diagnostics)
  end
  vim.lsp.diagnostic.on_publish_diagnostics(fault, told, context, config)
end

local server = {
  name = "gristbook",
  cmd = { "yaml-language-server", "--stdio" },
  root_dir = home,
  handlers = { ["textDocument/publishDiagnostics"] = above_the_prose },
  settings = {
    yaml = {
      schemaStore = { enable = false },
      format = { enable = false },
      schemas = {
        [schema("book")] = { "/book.yaml" },
        [schema("batch")] = { "**/[0-9][0-9][0-9][0-9]-*.md" },
        [schema("recipe")] = { "*.md", "!**/[0-9][0-9][0-9][0-9]-*.md", "!/pages/**", "!/theme/**" },
      },
    },
  },
}

local client
vim.api.nvim_create_autocmd("FileType", {
  pattern = { "yaml", "markdown" },
  callback = function(it)
    if not vim.startswith(vim.fn.fnamemodify(it.file, ":p"), home .. "/") then return end
    if vim.lsp.start then
      vim.lsp.start(server, { bufnr = it.buf })
    else -- before 0.8
      client = client or vim.lsp.start_client(server)
      vim.lsp.buf_attach_client(it.buf, client)
    end
    vim.bo[it.buf].omnifunc = "v:lua.vim.lsp.omnifunc"
  end,
})
