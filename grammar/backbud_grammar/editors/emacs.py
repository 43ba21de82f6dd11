"""The mode for Emacs."""

from __future__ import annotations

from collections.abc import Iterable

from backbud_grammar.editors.patterns import (
    ACT_WORDS,
    ASIDE,
    CARDS,
    CHOICE_WORDS,
    DATE,
    DETAIL_WORDS,
    HOUR_BEFORE,
    KIND_WORDS,
    MADE_BY,
    MEASURE,
    PROSE_ACT_WORDS,
    QUOTED,
    WEATHER_WORDS,
    in_lisp,
)

_TAB = "\t"

_MODE = """\
;;; backbud-mode.el --- Highlighting for backbud care journals  -*- lexical-binding: t; -*-

;; SPDX-License-Identifier: MIT
;; Package-Requires: ((emacs "26.1"))

;;; Commentary:
;; {made_by}

;;; Code:

(require 'font-lock)

(defconst backbud-act-words
  {acts}
  "Every word that can open an act line.")

(defconst backbud-prose-act-words
  {prose_acts}
  "Acts that take everything as prose.")

(defconst backbud-detail-words
  {details}
  "Words that open a detail.")

(defconst backbud-weather-words
  {weather}
  "Words of the day's weather.")

(defconst backbud-labels
  '({labels})
  "For each kind of card its labels with details after them.")

(defconst backbud-prose-labels
  '({prose_labels})
  "For each kind of card its labels with prose after them.")

(defconst backbud-head-regexp
  (concat "^" (regexp-opt {kinds} t) "[ \\t]+\\\\([^ \\t,\\n]+\\\\)[ \\t]*$")
  "The first line of a card.")

(defun backbud--opening (words)
  "Return a regexp for any of WORDS and the rest of the line."
  (concat (regexp-opt words t) "\\\\(?:[ \\t]+\\\\(.*\\\\)\\\\)?$"))

(defun backbud--card-kind ()
  "Return the kind of the card that the line belongs to, or nil."
  (save-excursion
    (beginning-of-line)
    (let ((case-fold-search nil))
      (and (re-search-backward "^[^ \\t\\n#]" nil t)
           (looking-at backbud-head-regexp)
           (match-string-no-properties 1)))))

(defun backbud--match-line (limit words-of)
  "Find an indented line up to LIMIT that opens with one of the words for it.
WORDS-OF returns them for the kind of the card around, or nil.  The first group
is the word, the second what follows."
  (let ((found nil))
    (while (and (not found)
                (re-search-forward "^[ \\t]+{hour}\\\\([^ \\t\\n#]\\\\)" limit t))
      (goto-char (match-beginning 1))
      (let ((words (funcall words-of (backbud--card-kind)))
            (case-fold-search t))
        (if (and words (looking-at (backbud--opening words)))
            (progn (goto-char (match-end 0)) (setq found t))
          (end-of-line))))
    found))

(defun backbud--match-act (limit)
  "Find an act up to LIMIT."
  (backbud--match-line limit (lambda (kind) (and (not kind) backbud-act-words))))

(defun backbud--match-prose-act (limit)
  "Find an act up to LIMIT that takes everything as prose."
  (backbud--match-line limit (lambda (kind) (and (not kind) backbud-prose-act-words))))

(defun backbud--match-label (limit)
  "Find a card's line up to LIMIT with details."
  (backbud--match-line limit (lambda (kind) (cdr (assoc kind backbud-labels)))))

(defun backbud--match-prose-label (limit)
  "Find a card's line up to LIMIT with prose."
  (backbud--match-line limit (lambda (kind) (cdr (assoc kind backbud-prose-labels)))))

(defconst backbud-font-lock-keywords
  `(("^[ \\t]*#.*$" . font-lock-comment-face)
    (,backbud-head-regexp (1 font-lock-type-face) (2 font-lock-function-name-face))
    ("^[0-9][^ \\t\\n]*" (0 font-lock-function-name-face)
     (,(regexp-opt backbud-weather-words 'symbols) nil nil (0 font-lock-builtin-face)))
    ("^[^ \\t\\n#0-9].*$" (0 font-lock-variable-name-face)
     (,(regexp-opt {choices} 'symbols)
      (progn (beginning-of-line) nil) nil (0 font-lock-keyword-face t)))
    (backbud--match-prose-act (1 font-lock-keyword-face) (2 font-lock-string-face nil t))
    (backbud--match-prose-label (1 font-lock-type-face) (2 font-lock-string-face nil t))
    ({aside} 1 font-lock-comment-face)
    ({quoted} . font-lock-string-face)
    (backbud--match-act (1 font-lock-keyword-face))
    (backbud--match-label (1 font-lock-type-face))
    ({date} 1 font-lock-constant-face)
    ({measure} 1 font-lock-constant-face)
    ("^[ \\t]+[^ \\t\\n#]+"
     (,(regexp-opt backbud-detail-words 'symbols) nil nil (0 font-lock-builtin-face))))
  "What is highlighted, in this order; what has a colour keeps it.")

;;;###autoload
(define-derived-mode backbud-mode text-mode "backbud"
  "Mode for backbud care journals."
  (modify-syntax-entry ?\\" "." backbud-mode-syntax-table)
  (modify-syntax-entry ?- "_" backbud-mode-syntax-table)
  (setq-local comment-start "# ")
  (setq-local comment-start-skip "#+[ \\t]*")
  (setq-local font-lock-defaults '(backbud-font-lock-keywords t)))

;;;###autoload
(defun backbud-journal-p ()
  "Return non-nil in a text file below a folder with a backbud.toml."
  (and buffer-file-name
       (string-suffix-p ".txt" buffer-file-name)
       (locate-dominating-file buffer-file-name "backbud.toml")
       t))

;;;###autoload
(add-to-list 'magic-mode-alist '(backbud-journal-p . backbud-mode))

(provide 'backbud-mode)
;;; backbud-mode.el ends here
"""


def emacs_mode() -> str:
    """The mode's file."""
    return _filled(
        _MODE,
        {
            "made_by": MADE_BY,
            "acts": _list(ACT_WORDS),
            "prose_acts": _list(PROSE_ACT_WORDS),
            "details": _list(DETAIL_WORDS),
            "weather": _list(WEATHER_WORDS),
            "labels": "\n    ".join(_table(card.kind, card.labels) for card in CARDS),
            "prose_labels": "\n    ".join(_table(card.kind, card.prose) for card in CARDS),
            "kinds": _list(KIND_WORDS),
            "choices": _list(CHOICE_WORDS),
            "hour": _string(in_lisp(HOUR_BEFORE))[1:-1],
            "aside": _string(rf"[ {_TAB}]\({in_lisp(ASIDE)}\(?:[ {_TAB}].*\)?\)$"),
            "quoted": _string(in_lisp(QUOTED.replace("[^", "[^\n"))),
            "date": _apart(DATE),
            "measure": _apart(MEASURE),
        },
    )


def _filled(template: str, values: dict[str, str]) -> str:
    for name, value in values.items():
        template = template.replace(f"{{{name}}}", value)
    return template


def _apart(pattern: str) -> str:
    return _string(rf'\_<\({in_lisp(pattern)}\)\(?:[ {_TAB},"]\|$\)')


def _list(words: Iterable[str]) -> str:
    return f"'({' '.join(map(_string, words))})"


def _table(kind: str, words: Iterable[str]) -> str:
    return f"({' '.join(map(_string, (kind, *words)))})"


def _string(text: str) -> str:
    for sign, written in (("\\", "\\\\"), ('"', '\\"'), ("\t", "\\t"), ("\n", "\\n")):
        text = text.replace(sign, written)
    return f'"{text}"'
