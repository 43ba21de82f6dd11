;;; backbud-mode.el --- Highlighting for backbud care journals  -*- lexical-binding: t; -*-

;; SPDX-License-Identifier: MIT
;; Package-Requires: ((emacs "26.1"))

;;; Commentary:
;; Made from the tables of the language by python -m backbud_grammar.editors.generate

;;; Code:

(require 'font-lock)

(defconst backbud-act-words
  '("agree" "agreed" "air layer" "air layered" "air-layer" "air-layered" "ask after" "ask-after" "asked after" "asked-after" "bend" "bent" "bill" "billed" "bloom" "bloomed" "bought" "buy" "carve" "carved" "check" "checked" "clean" "cleaned" "clip" "clipped" "collect" "collected" "correct" "corrected" "count" "counted" "credit" "credited" "cut back" "cut-back" "deadhead" "deadheaded" "decandle" "decandled" "defoliate" "defoliated" "die" "died" "dig" "disbud" "disbudded" "drain" "drained" "dug" "exhibit" "exhibited" "fed" "feed" "fertilise" "fertilised" "fertilize" "fertilized" "flowered" "flush" "flushed" "fruit" "fruited" "germinate" "germinated" "graft" "grafted" "guy" "guyed" "hand back" "hand-back" "handed back" "handed-back" "insure" "insured" "invoiced" "layer" "layered" "leaf prune" "leaf pruned" "leaf-prune" "leaf-pruned" "lend" "lent" "lift" "lifted" "lime sulphur" "lime sulphured" "lime-sulphur" "lime-sulphured" "lose" "lost" "measure" "measured" "mist" "misted" "move" "moved" "needle pluck" "needle plucked" "needle-pluck" "needle-plucked" "notch" "notched" "note" "noted" "open" "opened" "paid" "part off" "part-off" "parted off" "parted-off" "pay" "photo" "photograph" "photographed" "pinch" "pinched" "plan" "planned" "plant out" "plant-out" "planted out" "planted-out" "pluck" "plucked" "pot on" "pot up" "pot-on" "pot-up" "potted on" "potted up" "potted-on" "potted-up" "price" "priced" "prick" "prick-out" "pricked" "pricked-out" "private" "protect" "protected" "prune" "pruned" "put off" "put-off" "quarantine" "quarantined" "quote" "quoted" "ready" "receive" "received" "refront" "refronted" "release" "released" "repot" "repotted" "return" "returned" "root prune" "root pruned" "root-prune" "root-pruned" "rooted" "rotate" "rotated" "rub" "rubbed" "seal" "sealed" "select" "selected" "sell" "separate" "separated" "sever" "severed" "shade" "shaded" "show" "shown" "skip" "skipped" "slip" "slipped" "soak" "soaked" "sold" "sow" "sown" "split off" "split-off" "spray" "sprayed" "stage" "staged" "strike" "struck" "style" "styled" "thin" "thinned" "tie" "tied" "top dress" "top dressed" "top-dress" "top-dressed" "treat" "treat-deadwood" "treated" "treated-deadwood" "trim" "trimmed" "turn" "turned" "unguy" "unguyed" "unprotect" "unprotected" "unshade" "unshaded" "untie" "untied" "unwire" "unwired" "unwrap" "unwrapped" "use" "used" "value" "valued" "ventilate" "ventilated" "vigor" "vigour" "water" "watered" "weed" "weeded" "wire" "wired" "work" "worked" "wrap" "wrapped")
  "Every word that can open an act line.")

(defconst backbud-prose-act-words
  '("note" "noted" "private")
  "Acts that take everything as prose.")

(defconst backbud-detail-words
  '("leaving the petioles" "old soil washed out" "water conductivity" "wrapped in plastic" "off the underside" "old ties still in" "water temperature" "half bare-rooted" "leaving petioles" "old ties left in" "pasted both ends" "soil temperature" "cold stratified" "field soil kept" "rooting hormone" "roots shortened" "sphagnum on top" "with field soil" "drainage layer" "in a split pot" "invoice number" "off the bottom" "rooting powder" "roots cut back" "trunk diameter" "water hardness" "off all round" "off the sides" "old ties left" "permit number" "ball wrapped" "conductivity" "in condition" "no root work" "old ties cut" "old ties out" "old wire off" "old wire out" "roots combed" "all of them" "anchored to" "bare-rooted" "bottom heat" "moss on top" "new needles" "off the top" "old ties in" "rooting gel" "with accent" "with permit" "with scroll" "altogether" "bare roots" "combed out" "deposit of" "everything" "in plastic" "internodes" "stays here" "stratified" "teased out" "washed out" "watered in" "all of it" "as a gift" "back into" "condition" "internode" "off below" "off sides" "on a tile" "one every" "own shoot" "root ball" "wanted by" "again in" "all over" "diameter" "for bill" "hardness" "imported" "in a pot" "in total" "loosened" "not done" "observed" "on stand" "out into" "re-entry" "same mix" "same pot" "sphagnum" "together" "water pH" "against" "back to" "candles" "deposit" "diluted" "hormone" "invoice" "leaving" "lowered" "needles" "off top" "on bill" "on loan" "one per" "soil pH" "the lot" "tied in" "watered" "accent" "bagged" "candle" "combed" "except" "height" "higher" "in all" "in pot" "nebari" "needle" "number" "out of" "out to" "pasted" "permit" "potted" "raised" "scroll" "sealed" "set at" "shoots" "soaked" "spread" "tilted" "turned" "wanted" "washed" "wedges" "weight" "again" "award" "gauge" "girth" "lower" "medal" "pairs" "prize" "shoot" "stand" "stays" "stubs" "taped" "times" "trunk" "until" "wedge" "width" "BBCH" "area" "bill" "cans" "dose" "each" "from" "gift" "into" "mesh" "more" "moss" "onto" "rate" "risk" "stub" "tied" "ties" "time" "tips" "weak" "wind" "with" "all" "can" "for" "mix" "off" "tip" "was" "EC" "as" "at" "by" "in" "of" "on" "pH" "to")
  "Words that open a detail.")

(defconst backbud-weather-words
  '("humidity" "frost" "hail" "high" "rain" "snow" "wind" "low" "sun" "at")
  "Words of the day's weather.")

(defconst backbud-labels
  '(("tree" "root ball" "wanted by" "formerly" "strength" "height" "nebari" "public" "spread" "wanted" "wedges" "count" "girth" "owner" "place" "since" "trunk" "value" "width" "mix" "pot")
    ("place" "elevation" "longitude" "altitude" "formerly" "latitude" "coldest" "within" "cover" "since" "high" "rain" "low")
    ("pot" "formerly" "outside" "inside" "holes" "owner" "shape" "since" "taper" "value" "feet")
    ("person" "forgotten" "formerly" "consent" "pages" "place" "since" "rate")
    ("mix" "formerly" "settles" "since" "pH")
    ("material" "formerly" "density" "sold in" "label" "lasts" "metal" "price" "since")
    ("group" "formerly" "since" "trees")
    ("words" "since" "past"))
  "For each kind of card its labels with details after them.")

(defconst backbud-prose-labels
  '(("tree" "passport" "species" "origin" "front" "notes" "style" "kind" "name" "note")
    ("place" "hardiness zone" "weather" "notes" "name" "note" "town")
    ("pot" "colour" "color" "glaze" "maker" "notes" "name" "note")
    ("person" "experience" "address" "contact" "notes" "name" "note" "town")
    ("mix" "notes" "name" "note")
    ("material" "notes" "name" "note")
    ("group" "notes" "name" "note")
    ("words" "notes" "note"))
  "For each kind of card its labels with prose after them.")

(defconst backbud-head-regexp
  (concat "^" (regexp-opt '("tree" "place" "pot" "person" "mix" "material" "group" "words") t) "[ \t]+\\([^ \t,\n]+\\)[ \t]*$")
  "The first line of a card.")

(defun backbud--opening (words)
  "Return a regexp for any of WORDS and the rest of the line."
  (concat (regexp-opt words t) "\\(?:[ \t]+\\(.*\\)\\)?$"))

(defun backbud--card-kind ()
  "Return the kind of the card that the line belongs to, or nil."
  (save-excursion
    (beginning-of-line)
    (let ((case-fold-search nil))
      (and (re-search-backward "^[^ \t\n#]" nil t)
           (looking-at backbud-head-regexp)
           (match-string-no-properties 1)))))

(defun backbud--match-line (limit words-of)
  "Find an indented line up to LIMIT that opens with one of the words for it.
WORDS-OF returns them for the kind of the card around, or nil.  The first group
is the word, the second what follows."
  (let ((found nil))
    (while (and (not found)
                (re-search-forward "^[ \t]+\\(?:[0-2][0-9]:[0-5][0-9][ \t]+\\)?\\([^ \t\n#]\\)" limit t))
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
  `(("^[ \t]*#.*$" . font-lock-comment-face)
    (,backbud-head-regexp (1 font-lock-type-face) (2 font-lock-function-name-face))
    ("^[0-9][^ \t\n]*" (0 font-lock-function-name-face)
     (,(regexp-opt backbud-weather-words 'symbols) nil nil (0 font-lock-builtin-face)))
    ("^[^ \t\n#0-9].*$" (0 font-lock-variable-name-face)
     (,(regexp-opt '("all" "except" "in" "of") 'symbols)
      (progn (beginning-of-line) nil) nil (0 font-lock-keyword-face t)))
    (backbud--match-prose-act (1 font-lock-keyword-face) (2 font-lock-string-face nil t))
    (backbud--match-prose-label (1 font-lock-type-face) (2 font-lock-string-face nil t))
    ("[ \t]\\(\\(?:--\\|—\\)\\(?:[ \t].*\\)?\\)$" 1 font-lock-comment-face)
    ("\"[^\n\"]*\"" . font-lock-string-face)
    (backbud--match-act (1 font-lock-keyword-face))
    (backbud--match-label (1 font-lock-type-face))
    ("\\_<\\(\\(?:[0-9]\\{4\\}[-0-9WX~?%]*/\\(?:[0-9]\\{4\\}[-0-9WX~?%]*\\|\\.\\.\\)\\|\\.\\./[0-9]\\{4\\}[-0-9WX~?%]*\\|[0-9]\\{4\\}-[0-9]\\{2\\}-[0-9]\\{2\\}[~?%]?\\|[0-9]\\{4\\}-\\(?:[0-9]\\{2\\}\\|XX\\|W[0-9]\\{2\\}\\)\\(?:-\\(?:XX\\|[0-9]\\)\\)?[~?%]?\\|[0-9]\\{4\\}[~?%]\\|[0-9]\\{2\\}\\(?:XX\\|[0-9]X\\)[~?%]?\\)\\)\\(?:[ \t,\"]\\|$\\)" 1 font-lock-constant-face)
    ("\\_<\\(\\(?:[0-9]+[ \t]*h[ \t]*[0-9]+\\(?:[ \t]*min\\)?\\|[-−]?[0-9]+\\(?:[.,][0-9]+\\)*\\(?:\\(?:[ \t]*[x×][ \t]*\\|[-–/:]\\|[ \t]+to[ \t]+\\)[-−]?[0-9]+\\(?:[.,][0-9]+\\)*\\)*\\(?:\\(?:[ \t]*\\(?:degrees\\|minutes\\|percent\\|seconds\\|UK gal\\|US gal\\|degree\\|inches\\|liters\\|litres\\|minute\\|months\\|second\\|hours\\|liter\\|litre\\|mS/cm\\|month\\|uS/cm\\|weeks\\|years\\|µS/cm\\|μS/cm\\|days\\|feet\\|foot\\|hour\\|inch\\|week\\|year\\|cm2\\|cm²\\|day\\|m/s\\|min\\|ppm\\|°dH\\|cL\\|cl\\|cm\\|dH\\|dL\\|dl\\|ha\\|kg\\|lb\\|m2\\|m3\\|mL\\|mg\\|ml\\|mm\\|m²\\|m³\\|oz\\|°C\\|°F\\|%\\|C\\|F\\|L\\|d\\|g\\|h\\|l\\|m\\|s\\|°\\)\\|[ \t]+[A-Z]\\{3\\}\\)\\(?:[ \t]*/[ \t]*\\(?:degrees\\|minutes\\|percent\\|seconds\\|UK gal\\|US gal\\|degree\\|inches\\|liters\\|litres\\|minute\\|months\\|second\\|hours\\|liter\\|litre\\|mS/cm\\|month\\|uS/cm\\|weeks\\|years\\|µS/cm\\|μS/cm\\|days\\|feet\\|foot\\|hour\\|inch\\|week\\|year\\|cm2\\|cm²\\|day\\|m/s\\|min\\|ppm\\|°dH\\|cL\\|cl\\|cm\\|dH\\|dL\\|dl\\|ha\\|kg\\|lb\\|m2\\|m3\\|mL\\|mg\\|ml\\|mm\\|m²\\|m³\\|oz\\|°C\\|°F\\|%\\|C\\|F\\|L\\|d\\|g\\|h\\|l\\|m\\|s\\|°\\)\\)?\\)?\\(?:[ \t]+[x×][ \t]*[0-9]+\\)?\\)\\)\\(?:[ \t,\"]\\|$\\)" 1 font-lock-constant-face)
    ("^[ \t]+[^ \t\n#]+"
     (,(regexp-opt backbud-detail-words 'symbols) nil nil (0 font-lock-builtin-face))))
  "What is highlighted, in this order; what has a colour keeps it.")

;;;###autoload
(define-derived-mode backbud-mode text-mode "backbud"
  "Mode for backbud care journals."
  (modify-syntax-entry ?\" "." backbud-mode-syntax-table)
  (modify-syntax-entry ?- "_" backbud-mode-syntax-table)
  (setq-local comment-start "# ")
  (setq-local comment-start-skip "#+[ \t]*")
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
