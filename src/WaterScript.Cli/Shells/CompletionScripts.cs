namespace WaterScript.Cli.Shells;

/// <summary>
/// What a shell runs so that Tab completes a line. Each asks the program itself, by its <c>[suggest:N]</c>, so that no list of options stands in two
/// places. Where the program offers nothing, the shell offers files; options are offered once a hyphen is typed.
/// </summary>
internal static class CompletionScripts
{
    /// <summary>For bash.</summary>
    public const string Bash =
        """
        # Tab completes waterscript in bash:  source <(waterscript completions bash)
        _waterscript() {
          local before=${COMP_LINE:0:COMP_POINT} offered each
          local line=${before#* }
          mapfile -t offered < <("$1" "[suggest:${#line}]" "$line" 2>/dev/null)
          COMPREPLY=()
          for each in "${offered[@]}"; do
            [[ $each == /* || ( $each == -* && $2 != -* ) ]] && continue
            [[ $each == "$2"* ]] && COMPREPLY+=("$(printf '%q' "$each")")
          done
        }
        complete -o default -F _waterscript waterscript
        """;

    /// <summary>For zsh.</summary>
    public const string Zsh =
        """
        #compdef waterscript
        # Tab completes waterscript in zsh:  source <(waterscript completions zsh), after compinit
        _waterscript() {
          local line each
          for each in "${(@Q)words[2,CURRENT-1]}"; do
            [[ $each == *' '* ]] && line+="\"$each\" " || line+="$each "
          done
          line+=$PREFIX
          local -a offered kept
          offered=("${(@f)$("${words[1]}" "[suggest:${#line}]" "$line" 2>/dev/null)}")
          for each in $offered; do
            [[ $each == /* || ( $each == -* && $PREFIX != -* ) ]] || kept+=("$each")
          done
          compadd -a kept || _files
        }
        compdef _waterscript waterscript
        """;

    /// <summary>For fish.</summary>
    public const string Fish =
        """
        # Tab completes waterscript in fish:  waterscript completions fish | source
        function __waterscript_offered
          set -l word (commandline -ct)
          set -l words
          for each in (commandline -opc)[2..]
            string match -q '* *' -- $each; and set each "\"$each\""
            set -a words $each
          end
          set -l line (string join ' ' -- $words $word)
          set -l offered (waterscript "[suggest:"(string length -- "$line")"]" "$line" 2>/dev/null | string match -v -r '^/')
          string match -q -- '-*' $word; or set offered (string match -v -r '^-' -- $offered)
          if test (count $offered) -gt 0
            string join \n -- $offered
          else
            __fish_complete_path $word
          end
        end
        complete -c waterscript -f -a '(__waterscript_offered)'
        """;

    /// <summary>For PowerShell.</summary>
    public const string PowerShell =
        """
        # Tab completes waterscript in PowerShell:  waterscript completions pwsh | Out-String | Invoke-Expression
        Register-ArgumentCompleter -Native -CommandName waterscript -ScriptBlock {
          param($word, $ast, $cursor)
          $before = $ast.ToString().PadRight($cursor).Substring(0, $cursor)
          $line = if ($before.Contains(' ')) { $before.Substring($before.IndexOf(' ') + 1) } else { '' }
          waterscript "[suggest:$($line.Length)]" $line 2>$null |
            Where-Object { -not $_.StartsWith('/') -and ($word.StartsWith('-') -or -not $_.StartsWith('-')) } |
            ForEach-Object { [System.Management.Automation.CompletionResult]::new($_, $_, 'ParameterValue', $_) }
        }
        """;
}
