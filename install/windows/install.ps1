<#
.SYNOPSIS
Registers Stockseat as a Windows service from a published folder, upgrades it, or removes it.

.DESCRIPTION
Run it in an elevated PowerShell (5.1 or later). Running it again changes nothing that is already right.
An existing configuration and the ledger are never changed. A running service is stopped for an upgrade and started again.

  program        %ProgramFiles%\Stockseat
  configuration  %ProgramData%\Stockseat\config\stockseat.json and fixtures\
  ledger         %ProgramData%\Stockseat\ledger

.PARAMETER Published
The folder that dotnet publish wrote: stockseat.exe and the files beside it.

.PARAMETER Config
A folder with stockseat.json and fixtures\; copied only where no stockseat.json is installed.

.PARAMETER Remove
Stops and removes the service, its event source and the program. Configuration and ledger stay.

.PARAMETER Purge
With -Remove: also removes configuration and ledger. This can't be undone.

.EXAMPLE
.\install.ps1 -Published C:\build\stockseat -Config C:\build\config

.EXAMPLE
.\install.ps1 -Remove
#>
[CmdletBinding(DefaultParameterSetName = 'Install')]
param(
    [Parameter(ParameterSetName = 'Install', Mandatory = $true, Position = 0)] [string] $Published,
    [Parameter(ParameterSetName = 'Install', Position = 1)] [string] $Config,
    [Parameter(ParameterSetName = 'Remove', Mandatory = $true)] [switch] $Remove,
    [Parameter(ParameterSetName = 'Remove')] [switch] $Purge
)

Set-StrictMode -Version 2.0
$ErrorActionPreference = 'Stop'

function Say([string] $text) { Write-Host "install.ps1: $text" }

# What is wrong with which value, then what to do next. Exit code 64: wrong usage; 2: could not be done.
function Stop-Script([int] $code, [string] $what, [string] $next) {
    [Console]::Error.WriteLine("install.ps1: $what")
    [Console]::Error.WriteLine("install.ps1: $next")
    exit $code
}

# Runs a Windows tool and stops the script when it fails.
function Invoke-Tool([string] $tool, [string[]] $arguments) {
    $output = & $tool @arguments
    if ($LASTEXITCODE -ne 0) {
        Stop-Script 2 "'$tool $($arguments -join ' ')' ended with $LASTEXITCODE`: $($output -join ' ')" `
            'Correct the problem that it names, then run install.ps1 again; it continues where it stopped.'
    }
}

# Copies a file or a folder to a name that doesn't exist yet, completely or not at all.
function Copy-Whole([string] $from, [string] $to) {
    $incoming = "$to.incoming"
    if (Test-Path -LiteralPath $incoming) { Remove-Item -LiteralPath $incoming -Recurse -Force }
    Copy-Item -LiteralPath $from -Destination $incoming -Recurse
    Move-Item -LiteralPath $incoming -Destination $to
    Say "copied to $to"
}

# Stops the service and waits until it has ended: it drains in less than 8 s.
function Stop-AndWait($running) {
    if ($running.Status -ne 'Stopped') {
        Stop-Service -InputObject $running
        $running.WaitForStatus('Stopped', [TimeSpan]::FromSeconds(30))
    }
}

# True when both folders have the same files with the same content.
function Test-SameFolder([string] $left, [string] $right) {
    $lists = foreach ($folder in $left, $right) {
        $full = (Get-Item -LiteralPath $folder).FullName.TrimEnd('\')
        $lines = Get-ChildItem -LiteralPath $full -Recurse -File | ForEach-Object {
            $_.FullName.Substring($full.Length) + '|' + (Get-FileHash -LiteralPath $_.FullName -Algorithm SHA256).Hash
        }
        (@($lines) | Sort-Object) -join "`n"
    }
    return $lists[0] -eq $lists[1]
}

if ($env:OS -ne 'Windows_NT') {
    Stop-Script 2 'install.ps1 registers a Windows service and runs on Windows only.' 'On Linux use linux/install.sh.'
}

$name = 'Stockseat'
$program = Join-Path $env:ProgramFiles 'Stockseat'
$root = Join-Path $env:ProgramData 'Stockseat'
$configured = Join-Path $root 'config'
$settings = Join-Path $configured 'stockseat.json'
$ledger = Join-Path $root 'ledger'
# A virtual account: made by Windows for this one service, no password, and only the rights given below.
$account = "NT SERVICE\$name"

$identity = [Security.Principal.WindowsIdentity]::GetCurrent()
$principal = New-Object Security.Principal.WindowsPrincipal($identity)
if (-not $principal.IsInRole([Security.Principal.WindowsBuiltInRole]::Administrator)) {
    Stop-Script 2 "install.ps1 needs an administrator; it runs as '$($identity.Name)' without elevation." `
        'Open PowerShell with "Run as administrator" and run it again.'
}

$service = Get-Service -Name $name -ErrorAction SilentlyContinue

if ($Remove) {
    if ($null -ne $service) {
        Stop-AndWait $service
        Invoke-Tool 'sc.exe' @('delete', $name)
        Say "stopped and removed the service $name"
    }
    if ([Diagnostics.EventLog]::SourceExists($name)) {
        [Diagnostics.EventLog]::DeleteEventSource($name)
        Say "removed the event source $name"
    }
    $folders = @($program, "$program.new", "$program.previous")
    if ($Purge) { $folders += $root }
    foreach ($folder in $folders) {
        if (Test-Path -LiteralPath $folder) {
            Remove-Item -LiteralPath $folder -Recurse -Force
            Say "removed $folder"
        }
    }
    foreach ($kept in $configured, $ledger) {
        if (Test-Path -LiteralPath $kept) { Say "kept: $kept" }
    }
    if (Test-Path -LiteralPath $ledger) {
        Say "The ledger is the record of every answer: move it to an archive before you delete $ledger or use -Purge."
    }
    exit 0
}

# Everything is checked before anything is written.
if (-not (Test-Path -LiteralPath $Published -PathType Container)) {
    Stop-Script 64 "The published folder '$Published' does not exist." `
        'Make it first: dotnet publish -c Release -r win-x64 -o DIR src/Stockseat'
}
if (-not (Test-Path -LiteralPath (Join-Path $Published 'stockseat.exe') -PathType Leaf)) {
    Stop-Script 64 "The published folder '$Published' has no stockseat.exe in it." `
        'Give the folder that dotnet publish wrote with -o, published for Windows.'
}
if ($Config -and -not (Test-Path -LiteralPath (Join-Path $Config 'stockseat.json') -PathType Leaf)) {
    Stop-Script 64 "The configuration folder '$Config' has no stockseat.json in it." `
        'Give a folder with stockseat.json and fixtures\, or leave -Config out.'
}

$wasRunning = ($null -ne $service) -and ($service.Status -ne 'Stopped')

# The program: the new folder is complete before the old one moves aside.
$fresh = "$program.new"
if (Test-Path -LiteralPath $fresh) { Remove-Item -LiteralPath $fresh -Recurse -Force }
Copy-Item -LiteralPath $Published -Destination $fresh -Recurse
# What only a debugger needs is larger than the program.
Get-ChildItem -LiteralPath $fresh -Recurse -File | Where-Object { '.pdb', '.xml', '.dbg' -contains $_.Extension } | Remove-Item -Force
foreach ($notice in '..\third-party-notices.md', '..\..\LICENSE') {
    $file = Join-Path $PSScriptRoot $notice
    if (Test-Path -LiteralPath $file) { Copy-Item -LiteralPath $file -Destination $fresh }
}
if ((Test-Path -LiteralPath $program) -and (Test-SameFolder $fresh $program)) {
    Remove-Item -LiteralPath $fresh -Recurse -Force
    Say "program: $program is already up to date"
}
else {
    # Windows can't move a folder while its program runs.
    if ($wasRunning) { Stop-AndWait $service }
    if (Test-Path -LiteralPath $program) {
        if (Test-Path -LiteralPath "$program.previous") { Remove-Item -LiteralPath "$program.previous" -Recurse -Force }
        Move-Item -LiteralPath $program -Destination "$program.previous"
        Say "program: the previous one is kept in $program.previous"
    }
    Move-Item -LiteralPath $fresh -Destination $program
    Say "program: copied to $program"
}

# The service, before the folders: its account exists only once it is registered.
$exe = Join-Path $program 'stockseat.exe'
$commandLine = '"{0}" serve --config "{1}" --data "{2}"' -f $exe, $settings, $ledger
if ($null -eq $service) {
    $null = New-Service -Name $name -BinaryPathName $commandLine -DisplayName $name -StartupType Automatic `
        -Description 'Where round stock sits in its fixture. Not a safety function.'
    Say "registered the service $name"
}
else {
    $known = Get-CimInstance -ClassName Win32_Service -Filter "Name='$name'"
    if ($known.PathName -ne $commandLine) {
        $change = Invoke-CimMethod -InputObject $known -MethodName Change -Arguments @{ PathName = $commandLine }
        if ($change.ReturnValue -ne 0) {
            Stop-Script 2 "The command line of the service $name could not be changed: Win32_Service.Change returned $($change.ReturnValue)." `
                'Run install.ps1 -Remove, then install again; configuration and ledger stay.'
        }
        Say "changed the command line of the service $name"
    }
}
Invoke-Tool 'sc.exe' @('config', $name, 'start=', 'delayed-auto', 'obj=', $account)
# Recovery: restart after 2 s, 10 s, then every 60 s; the count starts again after a day without a failure. The flag makes an end with
# a non-zero exit code count as a failure too. Windows can't tell exit code 64 (bad configuration) from the others.
Invoke-Tool 'sc.exe' @('failure', $name, 'reset=', '86400', 'actions=', 'restart/2000/restart/10000/restart/60000')
Invoke-Tool 'sc.exe' @('failureflag', $name, '1')

# Debuggers and profilers could read the memory, so the runtime must not let them in. Variables that the site added stay.
$registered = "HKLM:\SYSTEM\CurrentControlSet\Services\$name"
$quiet = 'DOTNET_EnableDiagnostics=0'
$variables = @((Get-Item -LiteralPath $registered).GetValue('Environment', @()))
if (-not ($variables -like 'DOTNET_EnableDiagnostics=*')) {
    $null = New-ItemProperty -LiteralPath $registered -Name 'Environment' -PropertyType MultiString -Value ([string[]] ($variables + $quiet)) -Force
    Say "switched off the runtime's diagnostics for the service $name"
}

# Nobody keeps a service's stderr: its warnings and errors go to the event log, for which the source has to be registered.
if (-not [Diagnostics.EventLog]::SourceExists($name)) {
    [Diagnostics.EventLog]::CreateEventSource($name, 'Application')
    Say "registered the event source $name in the log Application"
}
# The file with the event viewer's texts. CreateEventSource names one in the folder of whichever PowerShell runs this, and that one is
# gone when PowerShell is updated. This one comes with Windows.
$source = "HKLM:\SYSTEM\CurrentControlSet\Services\EventLog\Application\$name"
$texts = '%SystemRoot%\Microsoft.NET\Framework64\v4.0.30319\EventLogMessages.dll'
$known = (Get-Item -LiteralPath $source).GetValue('EventMessageFile', '', [Microsoft.Win32.RegistryValueOptions]::DoNotExpandEnvironmentNames)
if ($known -ne $texts) {
    $null = New-ItemProperty -LiteralPath $source -Name 'EventMessageFile' -PropertyType ExpandString -Value $texts -Force
    Say "the event source $name takes its texts from $texts"
}

# The folders. ProgramData lets every user create files, so nothing is inherited: SYSTEM and Administrators may do everything,
# the service reads its configuration and writes its ledger. Well-known SIDs, since the names are translated.
foreach ($folder in $root, $configured, $ledger) {
    if (-not (Test-Path -LiteralPath $folder)) { $null = New-Item -ItemType Directory -Path $folder }
}
Invoke-Tool 'icacls.exe' @($root, '/inheritance:r', '/grant:r', '*S-1-5-18:(OI)(CI)F', '*S-1-5-32-544:(OI)(CI)F', "${account}:(OI)(CI)RX")
Invoke-Tool 'icacls.exe' @($ledger, '/grant:r', "${account}:(OI)(CI)M")

# The configuration: stockseat.json comes last, so that the next run can complete an interrupted one.
if (Test-Path -LiteralPath $settings) {
    Say "configuration: $settings exists; nothing in $configured was changed"
}
elseif ($Config) {
    foreach ($entry in Get-ChildItem -LiteralPath $Config | Where-Object { $_.Name -ne 'stockseat.json' }) {
        $target = Join-Path $configured $entry.Name
        if (Test-Path -LiteralPath $target) { Say "configuration: $target exists and was kept" }
        else { Copy-Whole $entry.FullName $target }
    }
    Copy-Whole (Join-Path $Config 'stockseat.json') $settings
}

if ($wasRunning) {
    # Whether it was stopped for a new program or kept running: afterwards it runs.
    try { Start-Service -Name $name }
    catch {
        Stop-Script 2 "The service does not start with the new program: $($_.Exception.Message). See the event viewer: Windows Logs, Application." `
            "To go back: Move-Item '$program' '$program.failed'; Move-Item '$program.previous' '$program'; Start-Service $name"
    }
    Say "the service $name is running"
    exit 0
}

Write-Host ''
if (Test-Path -LiteralPath $settings) {
    Write-Host 'Next:'
    Write-Host "  1. Check ${settings}: addresses, clients, gauges; and the revisions in $(Join-Path $configured 'fixtures')."
}
else {
    Write-Host 'There is no configuration yet; the service would end with exit code 64. Next:'
    Write-Host "  1. Put stockseat.json and fixtures\ into $configured, or run this again with -Config."
}
Write-Host "  2. Start it: Start-Service $name      (later it starts by itself, shortly after boot)"
Write-Host "  3. Check that it runs: Get-Service $name; warnings and errors are in the event viewer under Windows Logs, Application (source $name)."
Write-Host "The ledger is in $ledger. Stockseat is not a safety function and replaces none:"
Write-Host 'local codes and licensed practice come first.'
exit 0
