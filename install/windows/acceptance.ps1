<#
.SYNOPSIS
Takes Stockseat through its life on a spare Windows machine, and prints what passed.

.DESCRIPTION
For an hour on a machine that serves no cell. Run it in an elevated PowerShell (5.1 or later) where Stockseat was never installed: it installs the
service with the demo's configuration, and purges everything at the end, the ledger too. What it can't do by itself is printed last, to be done by hand.
Exit code 0: everything passed; 1: something did not; 2: it could not begin.

.PARAMETER Published
The folder that dotnet publish wrote: stockseat.exe and the files beside it.

.PARAMETER Config
The folder with the demo's stockseat.json and fixtures\.

.PARAMETER Keep
Does not remove anything at the end, so that you can look, restart the machine, and run it again with -AfterRestart.

.PARAMETER AfterRestart
Only checks that the service came up by itself after the machine was restarted, and then purges.

.EXAMPLE
.\acceptance.ps1 -Published C:\build\stockseat -Config C:\build\config
#>
[CmdletBinding()]
param(
    [Parameter(Mandatory = $true, Position = 0)] [string] $Published,
    [Parameter(Mandatory = $true, Position = 1)] [string] $Config,
    [switch] $Keep,
    [switch] $AfterRestart
)

Set-StrictMode -Version 2.0
$ErrorActionPreference = 'Stop'

if ($env:OS -ne 'Windows_NT') {
    [Console]::Error.WriteLine('acceptance.ps1: it tries a Windows service, and runs on Windows only.')
    exit 2
}

$name = 'Stockseat'
$install = Join-Path $PSScriptRoot 'install.ps1'
$exe = Join-Path (Join-Path $env:ProgramFiles 'Stockseat') 'stockseat.exe'
$root = Join-Path $env:ProgramData 'Stockseat'
$settings = Join-Path $root 'config\stockseat.json'
$ledger = Join-Path $root 'ledger'
$script:failed = @()
$began = Get-Date

# One check: what it is called, and what has to be true. Whatever it throws is its failure.
function Check([string] $what, [scriptblock] $holds) {
    try { $good = [bool] (& $holds); $why = '' }
    catch { $good = $false; $why = ": $($_.Exception.Message)" }
    if ($good) { Write-Host "passed  $what" }
    else {
        Write-Host "FAILED  $what$why"
        $script:failed += $what
    }
}

# Runs a PowerShell script or a program; its exit code.
function Run([string] $program, [string[]] $arguments) {
    if ($program -like '*.ps1') { $null = & powershell.exe -NoProfile -ExecutionPolicy Bypass -File $program @arguments 2>&1 }
    else { $null = & $program @arguments 2>&1 }
    return $LASTEXITCODE
}

# True as soon as something is; false after a minute.
function Wait-Until([scriptblock] $holds) {
    for ($i = 0; $i -lt 120; $i++) {
        try { if (& $holds) { return $true } } catch { $null = $_ }
        Start-Sleep -Milliseconds 500
    }
    return $false
}

# The reply to one line.
function Ask([string] $line) {
    $client = New-Object Net.Sockets.TcpClient('127.0.0.1', 28611)
    try {
        $stream = $client.GetStream()
        $bytes = [Text.Encoding]::ASCII.GetBytes("$line`n")
        $stream.Write($bytes, 0, $bytes.Length)
        return (New-Object IO.StreamReader($stream)).ReadLine()
    }
    finally { $client.Close() }
}

function Test-Answer { return (Ask 'locate fixture=pinbed-1 diameter=92.40mm tag=1') -like 'ok *' }

function Get-ServiceProcess { return (Get-CimInstance Win32_Service -Filter "Name='$name'").ProcessId }

# The service's own events since this began; their text must not be "the description can't be found".
function Get-Events { return @(Get-WinEvent -FilterHashtable @{ LogName = 'Application'; ProviderName = $name; StartTime = $began } -ErrorAction SilentlyContinue) }

function Remove-All {
    Check 'install.ps1 -Remove keeps configuration and ledger' { (Run $install @('-Remove')) -eq 0 -and (Test-Path $settings) -and (Test-Path $ledger) }
    Check 'install.ps1 -Remove -Purge leaves nothing' { (Run $install @('-Remove', '-Purge')) -eq 0 -and -not (Test-Path $root) -and -not (Test-Path $exe) }
    Check 'the service and its event source are gone' {
        $null -eq (Get-Service -Name $name -ErrorAction SilentlyContinue) -and -not [Diagnostics.EventLog]::SourceExists($name)
    }
}

function Test-Installed {
    Check 'install.ps1 installs' { (Run $install @('-Published', $Published, '-Config', $Config)) -eq 0 }
    Check 'install.ps1 a second time changes nothing and succeeds' { (Run $install @('-Published', $Published, '-Config', $Config)) -eq 0 }
    Check 'the service runs as its virtual account' { (Get-CimInstance Win32_Service -Filter "Name='$name'").StartName -eq "NT SERVICE\$name" }
    Check 'it starts by itself, delayed' { (& sc.exe qc $name) -match 'DELAYED' }
    Check 'it is restarted after a failure' { @((& sc.exe qfailure $name) -match 'RESTART').Count -ge 3 }
    Check 'other users may not enter its folder' {
        @((Get-Acl $root).Access | Where-Object { $_.IdentityReference -match 'Users|Everyone|Authenticated' }).Count -eq 0
    }
    Check 'the service may not write its configuration' {
        @((Get-Acl $settings).Access | Where-Object { $_.IdentityReference -like "*$name" -and ($_.FileSystemRights -band
            [Security.AccessControl.FileSystemRights]::Write) }).Count -eq 0
    }
    Check 'the program starts: --version' { (Run $exe @('--version')) -eq 0 }
    Check 'doctor finds nothing wrong before the first start' { (Run $exe @('doctor', '--config', $settings, '--data', $ledger)) -eq 0 }
}

function Test-Running {
    Start-Service -Name $name
    Check 'the service starts and answers in lines' { Wait-Until { Test-Answer } }
    Check 'it answers over gRPC' { (Run $exe @('locate', 'pinbed-1', '--diameter', '92.40mm')) -eq 0 }
    Check 'it shows the board' { (Invoke-WebRequest -UseBasicParsing 'http://127.0.0.1:28612/').StatusCode -eq 200 }
    Check 'it shows its metrics' { (Invoke-WebRequest -UseBasicParsing 'http://127.0.0.1:28612/metrics').Content -match 'stockseat_ledger_writable 1' }
    Check 'a second service on the same ledger is refused' { (Run $exe @('serve', '--config', $settings, '--data', $ledger)) -ne 0 }
    Check '500 asks are answered' {
        @(1..500 | Where-Object { -not (Test-Answer) }).Count -eq 0
    }
    Check 'a copy can be made while it runs' { (Run $exe @('ledger', 'copy', '--data', $ledger, '--output', (Join-Path $env:TEMP "stockseat-$PID"))) -eq 0 }
}

function Test-Faults {
    $before = Get-ServiceProcess
    Stop-Process -Id $before -Force
    Check 'it comes back after its process was ended' { Wait-Until { (Get-ServiceProcess) -notin 0, $before -and (Test-Answer) } }
    $clock = [Diagnostics.Stopwatch]::StartNew()
    Stop-Service -Name $name
    Check 'it stops within 8 s' { $clock.Elapsed.TotalSeconds -lt 8 }
    Check 'its ledger is intact' { (Run $exe @('ledger', 'verify', '--data', $ledger)) -eq 0 }
    Check 'every answer computes to the same again' { (Run $exe @('ledger', 'replay', '--data', $ledger)) -eq 0 }

    $good = [IO.File]::ReadAllText($settings)
    [IO.File]::WriteAllText($settings, '{ "Colour": 1 }')
    try { Start-Service -Name $name -ErrorAction SilentlyContinue } catch { $null = $_ }
    Check 'a fault of the configuration is in the event log, in words' {
        Wait-Until { @(Get-Events | Where-Object { $_.Message -match 'Colour' }).Count -gt 0 }
    }
    [IO.File]::WriteAllText($settings, $good)
    Check 'no event lacks its text' { @(Get-Events | Where-Object { -not $_.Message -or $_.Message -match 'cannot be found' }).Count -eq 0 }
    Start-Service -Name $name -ErrorAction SilentlyContinue
    Check 'it runs again with the good configuration' { Wait-Until { Test-Answer } }
}

function Test-Upgrade {
    $other = Join-Path $env:TEMP "stockseat-upgrade-$PID"
    Copy-Item -LiteralPath $Published -Destination $other -Recurse
    Set-Content -LiteralPath (Join-Path $other 'changed.txt') -Value 'another build'
    $before = Get-ServiceProcess
    Check 'install.ps1 upgrades while it runs' { (Run $install @('-Published', $other)) -eq 0 -and (Get-ServiceProcess) -ne $before -and (Wait-Until { Test-Answer }) }
    Check 'the program before it is kept' { Test-Path "$env:ProgramFiles\Stockseat.previous\stockseat.exe" }
    $keys = Join-Path $env:TEMP "stockseat-keys-$PID"
    Check 'a new key belongs to the current user alone' {
        (Run $exe @('certificate', 'authority', '--out', $keys, '--name', 'Acceptance')) -eq 0 -and
            @((Get-Acl (Join-Path $keys 'authority.key')).Access | Where-Object { $_.IdentityReference -match 'Users|Everyone|Authenticated' }).Count -eq 0
    }
    Remove-Item -LiteralPath $other, $keys, (Join-Path $env:TEMP "stockseat-$PID") -Recurse -Force -ErrorAction SilentlyContinue
}

if (-not (New-Object Security.Principal.WindowsPrincipal([Security.Principal.WindowsIdentity]::GetCurrent())).IsInRole(
        [Security.Principal.WindowsBuiltInRole]::Administrator)) {
    [Console]::Error.WriteLine('acceptance.ps1: it installs a service: open PowerShell with "Run as administrator" and run it again.')
    exit 2
}
if ($AfterRestart) {
    Check 'the service came up by itself after the restart' { Wait-Until { (Get-Service -Name $name).Status -eq 'Running' -and (Test-Answer) } }
    Check 'its ledger is intact' { (Run $exe @('ledger', 'verify', '--data', $ledger)) -eq 0 }
}
else {
    if ((Test-Path $root) -or $null -ne (Get-Service -Name $name -ErrorAction SilentlyContinue)) {
        [Console]::Error.WriteLine("acceptance.ps1: Stockseat is installed here already, or $root is there. At its end this script deletes both: use a spare machine.")
        exit 2
    }
    Test-Installed
    Test-Running
    Test-Faults
    Test-Upgrade
}
if (-not $Keep) { Remove-All }

Write-Host ''
Write-Host 'By hand, with -Keep before it:'
Write-Host '  [ ] restart the machine, wait three minutes, run this again with -AfterRestart'
Write-Host '  [ ] open the event viewer, Windows Logs, Application: the events of Stockseat read well'
Write-Host '  [ ] stockseat serve in a window of its own: Ctrl-C ends it with exit code 0'
Write-Host '  [ ] ledger on a small volume, filled to the last byte: refused with ledger-unavailable, and answers again when there is room'
Write-Host '  [ ] pull the plug while something asks: the ledger is intact afterwards, and has every answer that came'
Write-Host '  [ ] with a sealing key in the configuration: the service seals at a stop, and verify --require-seal is content'
Write-Host ''
Write-Host "$($script:failed.Count) failed$(if ($script:failed) { ': ' + ($script:failed -join '; ') })"
exit $(if ($script:failed) { 1 } else { 0 })
