@echo off
rem Starts Holdfast from the folder that this script lies in.
rem JAVA_HOME        the Java to use; else "java" on the PATH; 17 or newer
rem HOLDFAST_JAVA_OPTS   options for Java, separated by spaces; given last, so they win
rem Jumps instead of blocks: a bracket in a path, as in "Program Files (x86)", would end a block.
setlocal DisableDelayedExpansion
set "HOLDFAST_HOME=%~dp0.."

if not defined JAVA_HOME goto find_java
set "JAVA_HOME=%JAVA_HOME:"=%"
if exist "%JAVA_HOME%\bin\java.exe" goto use_java_home
echo holdfast: JAVA_HOME is "%JAVA_HOME%", but there is no bin\java.exe in it; set it to a Java 17 or newer. 1>&2
exit /b 2

:use_java_home
set "PATH=%JAVA_HOME%\bin;%PATH%"

:find_java
set "JAVA="
for %%j in (java.exe) do set "JAVA=%%~$PATH:j"
if defined JAVA goto ask_version
echo holdfast: there is no Java; install Java 17 or newer, or set JAVA_HOME to it. 1>&2
exit /b 2

:ask_version
set "VERSION="
for /f "tokens=1-3" %%a in ('java -version 2^>^&1') do if "%%b"=="version" set "VERSION=%%~c"
set "MAJOR="
for /f "delims=.-_+ tokens=1,2" %%a in ("%VERSION%") do set "MAJOR=%%a" & set "MINOR=%%b"
if "%MAJOR%"=="1" set "MAJOR=%MINOR%"
if defined MAJOR goto compare_version
echo holdfast: cannot tell the version of "%JAVA%"; Java 17 or newer is needed. 1>&2
exit /b 2

:compare_version
if %MAJOR% GEQ 17 goto start
echo holdfast: "%JAVA%" is Java %MAJOR%; Java 17 or newer is needed (JAVA_HOME chooses another). 1>&2
exit /b 2

:start
"%JAVA%" -XX:MaxRAMPercentage=70 %HOLDFAST_JAVA_OPTS% -cp "%HOLDFAST_HOME%\lib\holdfast.jar" org.holdfast.Main %*
exit /b %ERRORLEVEL%
