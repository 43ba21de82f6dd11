" Made from the tables of the language by python -m backbud_grammar.editors.generate
autocmd BufRead,BufNewFile *.txt
      \ if !empty(findfile('backbud.toml', escape(expand('<afile>:p:h'), ' ,;\') . ';'))
      \ |   setlocal filetype=backbud commentstring=#\ %s
      \ | endif
