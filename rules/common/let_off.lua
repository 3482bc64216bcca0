-- Let-off: how near the hammer comes to the string before the jack lets go.
return step {
  id = "let_off", title = "Let-off", stage = "set", unit = "mm", scope = "every",
  plain = "How a hammer lets go of its key, and is caught after it has struck",
  ask = "Press the key very slowly. Read the gap between hammer and string at the moment it turns back.",
  why = "Too close and the hammer blocks or jams. Too far and soft playing is lost.",
  target = graded {                     -- wide in the bass, where the strings swing far
    { "A0", range(2, 3.2, 2.5) },
    { "C8", range(1, 2, 1.5) },
  },
  resolution = 0.1, gauge = 0.3, even = 0.4,
  fix = { "let_off_button" },
  gauge_name = "let-off strip",
  source = "maker-2013-manual; list-let-off-strings; list-2001-let-off; list-2007-let-off; " ..
    "page-far-let-off; common-practice: evenness",
}
