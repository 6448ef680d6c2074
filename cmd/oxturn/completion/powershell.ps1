# oxturn: completion for PowerShell; where files are wanted it leaves them to the shell
Register-ArgumentCompleter -Native -CommandName oxturn -ScriptBlock {
  param($word, $line, $cursor)
  $before = @($line.CommandElements | Select-Object -Skip 1 |
    Where-Object { $_.Extent.EndOffset -lt $cursor } | ForEach-Object { $_.Extent.Text })
  & oxturn __complete @before $word 2>$null |
    Where-Object { $_ -notlike ':*' -and $_ -like "$word*" } |
    ForEach-Object { [System.Management.Automation.CompletionResult]::new($_, $_, 'ParameterValue', $_) }
}
