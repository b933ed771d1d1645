-- WaterScript in neovim 0.7 or later: put this into init.lua, or into a file under plugin/.
vim.api.nvim_create_autocmd({ 'BufRead', 'BufNewFile' }, {
  pattern = '*.water',
  callback = function() vim.bo.filetype = 'waterscript' end,
})

vim.api.nvim_create_autocmd('FileType', {
  pattern = 'waterscript',
  callback = function(event)
    vim.bo[event.buf].commentstring = '# %s'
    vim.bo[event.buf].shiftwidth = 2
    vim.bo[event.buf].expandtab = true
    local folder = vim.fn.fnamemodify(vim.api.nvim_buf_get_name(event.buf), ':p:h')
    local git = vim.fn.finddir('.git', folder .. ';')
    local config = {
      name = 'waterscript',
      cmd = { 'waterscript', 'lsp' },
      root_dir = git ~= '' and vim.fn.fnamemodify(git, ':p:h:h') or folder,
    }
    if vim.lsp.start then
      vim.lsp.start(config)
    else
      for id, client in pairs(vim.lsp.get_active_clients()) do
        if client.name == config.name and client.config.root_dir == config.root_dir then
          vim.lsp.buf_attach_client(event.buf, client.id or id)
          return
        end
      end
      vim.lsp.buf_attach_client(event.buf, vim.lsp.start_client(config))
    end
  end,
})
