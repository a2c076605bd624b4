# Turns the chapters of the handbook (Markdown) into one manual page of section 7.
# Understands what the handbook uses: headings, paragraphs, lists, tables, fenced blocks, `code`,
# **strong** and [links](targets).

function plain(text) {
  gsub(/\\/, "\\e", text)
  gsub(/-/, "\\-", text)
  return text
}

function inline(text) {
  text = plain(text)
  while (match(text, /\[[^]]*\]\([^)]*\)/)) {
    link = substr(text, RSTART, RLENGTH)
    sub(/^\[/, "", link); sub(/\]\(.*/, "", link)
    text = substr(text, 1, RSTART - 1) link substr(text, RSTART + RLENGTH)
  }
  while (match(text, /\*\*[^*]+\*\*/))
    text = substr(text, 1, RSTART - 1) "\\fB" substr(text, RSTART + 2, RLENGTH - 4) "\\fR" substr(text, RSTART + RLENGTH)
  while (match(text, /`[^`]+`/))
    text = substr(text, 1, RSTART - 1) "\\fB" substr(text, RSTART + 1, RLENGTH - 2) "\\fR" substr(text, RSTART + RLENGTH)
  if (text ~ /^[.']/) text = "\\&" text
  return text
}

BEGIN {
  print ".TH RTCMEND-HANDBOOK 7 \"\" \"rtcmend " version "\" \"Handbook\""
  print ".SH NAME"
  print "rtcmend\\-handbook \\- from the first hour with a dead machine to writing a layout"
}

/^!\[/ { next }  # a picture

/^```/ {
  fenced = !fenced
  print fenced ? ".PP\n.nf\n.RS 2" : ".RE\n.fi"
  next
}
fenced { line = plain($0); if (line ~ /^[.']/) line = "\\&" line; print line; next }
/^# /   { print ".SH " toupper(inline(substr($0, 3))); next }
/^##+ / { sub(/^#+ /, ""); print ".SS " inline($0); next }
/^\|[-| :]+\|$/ { next }
/^\|/   {
  line = $0
  sub(/^\| */, "", line); sub(/ *\|$/, "", line)
  cut = index(line, " | ")
  print ".TP"
  print inline(substr(line, 1, cut - 1))
  rest = substr(line, cut + 3)
  gsub(/ \| /, "; ", rest)
  print inline(rest)
  next
}
/^- /      { print ".IP \\(bu 2"; print inline(substr($0, 3)); next }
/^[0-9]+\. / { match($0, /^[0-9]+\./); print ".IP " substr($0, 1, RLENGTH) " 4"; sub(/^[0-9]+\. /, ""); print inline($0); next }
/^$/       { print ".PP"; next }
           { sub(/^ +/, ""); print inline($0) }
