-- Drives neovim, set up as docs/editors/neovim.lua says, through what people do. Quits with status 1 and a sentence where something is not as it should be.
local function fail(words)
  io.stderr:write('neovim: ' .. words .. '\n')
  vim.cmd('cquit 1')
end

local function expect(is, words)
  if not is then fail(words) end
end

local function wait(words, condition)
  expect(vim.wait(20000, condition, 20), words)
end

local function ask(method, params)
  local answers = vim.lsp.buf_request_sync(0, method, params, 20000)
  for _, answer in pairs(answers or {}) do
    if answer.error then fail(method .. ': ' .. answer.error.message) end
    return answer.result
  end
  fail(method .. ' has no answer')
end

local function at(line, character)
  return { textDocument = vim.lsp.util.make_text_document_params(), position = { line = line, character = character } }
end

local function find(text)
  for number, line in ipairs(vim.api.nvim_buf_get_lines(0, 0, -1, false)) do
    local column = line:find(text, 1, true)
    if column then return number - 1, column - 1 end
  end
  fail('there is no ' .. text)
end

local function findings() return vim.diagnostic.get(0) end

local function fix(text, title)
  local line, column = find(text)
  local params = at(line, column)
  params.range = { start = params.position, ['end'] = params.position }
  params.context = { diagnostics = {} }
  for _, action in ipairs(ask('textDocument/codeAction', params)) do
    if action.title == title then
      vim.lsp.util.apply_workspace_edit((action.edit and action or ask('codeAction/resolve', action)).edit, 'utf-16')
      return
    end
  end
  fail('no fix is called ' .. title)
end

local function run()
  vim.cmd('edit site.water')
  wait('the server does not start', function() return #vim.lsp.buf_get_clients(0) > 0 end)
  wait('two slips are not two findings: ' .. vim.inspect(findings()), function() return #findings() == 2 end)
  local places = {}
  for _, finding in ipairs(findings()) do table.insert(places, finding.lnum) end
  table.sort(places)
  expect(vim.deep_equal(places, { (find('lawm')), (find('10min')) }), 'the findings are not at their places')

  fix('lawm', 'Write lawn')
  wait('one is left', function() return #findings() == 1 end)
  fix('10min', 'Write 10 min')
  wait('none is left', function() return #findings() == 0 end)

  local line, column = find('water lawn')
  expect(vim.inspect(ask('textDocument/hover', at(line, column))):find('water lawn for 12 min', 1, true), 'hover')

  line, column = find('lawn')
  local rename = at(line, column)
  rename.newName = 'turf'
  vim.lsp.util.apply_workspace_edit(ask('textDocument/rename', rename), 'utf-16')
  find('water turf')
  vim.cmd('edit zones.water')
  find('zone turf')
  vim.cmd('buffer site.water')
  wait('the name is not changed everywhere', function() return #findings() == 0 end)

  vim.api.nvim_buf_set_lines(0, -1, -1, false, { 'zone   extra   {output 3}' })
  vim.lsp.util.apply_text_edits(ask('textDocument/formatting', { textDocument = vim.lsp.util.make_text_document_params(), options = { tabSize = 2, insertSpaces = true } }),
    0, 'utf-16')
  line, column = find('zone extra { output 3 }')

  local function offered(text, params)
    for _, item in ipairs(ask('textDocument/completion', params).items) do
      if item.label == text then return end
    end
    fail('completion does not offer ' .. text)
  end

  offered('flow', at(line, #'zone extra { '))
  line = find('water turf')
  local _, after = find('water turf')
  offered('beds', at(line, after + #'water '))
end

local is_done, problem = xpcall(run, debug.traceback)
if not is_done then fail(problem) end
io.stdout:write('neovim: all is as it should be\n')
vim.cmd('qall!')
