-- Checking: how far from the string the hammer is caught. Before the springs, always as a pair.
return step {
  id = "checking", title = "Checking distance", stage = "refine", unit = "mm", scope = "every",
  plain = "How a hammer lets go of its key, and is caught after it has struck",
  ask = "Play a medium blow, hold the key, and read from the caught hammer to the string. Hard blows come after.",
  why = "Caught high, repetition is quick. Too high and loud blows jam.",
  target = range(12, 16, 15),            -- 5/8 in passes; a laboratory text has 12 to 15
  resolution = 0.5, gauge = 0.5, even = 1.5,
  fix = { "backcheck" },
  method = "medium blow",
  source = "list-2003-checks; page-2021-spring; journal-2011-checking; common-practice: evenness",
}
