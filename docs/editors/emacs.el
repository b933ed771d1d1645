;;; WaterScript in emacs 28 or later, with eglot: put this into init.el.  -*- lexical-binding: t -*-
(require 'package)
(package-initialize)
(require 'eglot)

(define-derived-mode waterscript-mode prog-mode "WaterScript"
  "Watering schedules in plain text."
  (setq-local comment-start "# ")
  (setq-local tab-width 2)
  (setq-local indent-tabs-mode nil))

(add-to-list 'auto-mode-alist '("\\.water\\'" . waterscript-mode))
(add-to-list 'eglot-server-programs '(waterscript-mode . ("waterscript" "lsp")))
(add-hook 'waterscript-mode-hook #'eglot-ensure)
