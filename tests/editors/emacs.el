;;; Drives emacs, set up as docs/editors/emacs.el says, through what people do.  -*- lexical-binding: t -*-
(require 'cl-lib)
(require 'flymake)

(defun expect (is words)
  (unless is
    (message "emacs: %s" words)
    (kill-emacs 1)))

(defun wait (words condition)
  (let ((deadline (+ (float-time) 20)))
    (while (and (not (funcall condition)) (< (float-time) deadline))
      (accept-process-output nil 0.05))
    (expect (funcall condition) words)))

(defun findings () (flymake-diagnostics))

(defun go (text)
  (goto-char (point-min))
  (expect (search-forward text nil t) (format "there is no %s" text))
  (goto-char (match-beginning 0)))

(defun fix (text title)
  (go text)
  (let* ((actions (jsonrpc-request (eglot-current-server) :textDocument/codeAction
                                   (list :textDocument (eglot--TextDocumentIdentifier)
                                         :range (list :start (eglot--pos-to-lsp-position (point)) :end (eglot--pos-to-lsp-position (point)))
                                         :context '(:diagnostics []))))
         (action (cl-find title actions :key (lambda (each) (plist-get each :title)) :test #'equal)))
    (expect action (format "no fix is called %s" title))
    (eglot--apply-workspace-edit (plist-get action :edit))))

(setq eglot-sync-connect 20)
(find-file "site.water")
(expect (eq major-mode 'waterscript-mode) "the mode is not that of the language")
(unless (eglot-current-server)
  (apply #'eglot--connect (eglot--guess-contact)))
(eglot--maybe-activate-editing-mode)
(wait "two slips are not two findings" (lambda () (flymake-start) (= 2 (length (findings)))))
(expect (equal (sort (mapcar (lambda (finding) (line-number-at-pos (flymake-diagnostic-beg finding))) (findings)) #'<)
               (list (progn (go "lawm") (line-number-at-pos)) (progn (go "10min") (line-number-at-pos))))
        "the findings are not at their places")
(fix "lawm" "Write lawn")
(wait "one is left" (lambda () (eglot--signal-textDocument/didChange) (flymake-start) (= 1 (length (findings)))))
(fix "10min" "Write 10 min")
(wait "none is left" (lambda () (eglot--signal-textDocument/didChange) (flymake-start) (= 0 (length (findings)))))

(go "water lawn")
(expect (string-match-p "water lawn for 12 min"
                        (format "%s" (jsonrpc-request (eglot-current-server) :textDocument/hover (eglot--TextDocumentPositionParams))))
        "hover")

(go "lawn")
(let ((eglot-confirm-server-initiated-edits nil))
  (cl-letf (((symbol-function 'y-or-n-p) (lambda (&rest _) t)))
    (eglot-rename "turf")))
(go "water turf")
(with-current-buffer (find-file-noselect "zones.water") (go "zone turf"))
(eglot--signal-textDocument/didChange)

(goto-char (point-max))
(insert "zone   extra   {output 3}\n")
(eglot-format-buffer)
(go "zone extra { output 3 }")

(defun offered (text)
  (eglot--signal-textDocument/didChange)
  (let ((items (plist-get (jsonrpc-request (eglot-current-server) :textDocument/completion (eglot--TextDocumentPositionParams)) :items)))
    (expect (cl-find text items :key (lambda (item) (plist-get item :label)) :test #'equal) (format "completion does not offer %s" text))))

(forward-char (length "zone extra { "))
(offered "flow")
(go "water turf")
(forward-char (length "water "))
(offered "beds")
(message "emacs: all is as it should be")
(kill-emacs 0)
