# Makes one manual page of Markdown, with cmark: cmake -DCMARK=... -DFROM=page.1.md -DTO=page.1 -DNAME=page
# -DSECTION=1 -DDAY=2026-01-01 -DVERSION=0.1.0 -P man_page.cmake
execute_process(COMMAND ${CMARK} --to man --width 70 ${FROM} OUTPUT_VARIABLE body COMMAND_ERROR_IS_FATAL ANY)
# A typewriter font is not a font of every terminal; a middle dot has a long name; and a paragraph that
# begins a section has no use.
string(REPLACE "·" "-" body "${body}")
string(REPLACE "\\f[C]" "\\f[B]" body "${body}")
string(REGEX REPLACE "\n(\\.S[HS]\n[^\n]*)\n\\.PP\n" "\n\\1\n" body "\n${body}")
if(SECTION EQUAL 1)
  set(manual "General Commands Manual")
else()
  set(manual "File Formats Manual")
endif()
string(TOUPPER ${NAME} title)
file(WRITE ${TO} ".TH \"${title}\" \"${SECTION}\" \"${DAY}\" \"hammerline ${VERSION}\" \"${manual}\"${body}")
