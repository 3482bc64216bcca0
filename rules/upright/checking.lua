-- Checking of an upright. The check is squared to its catcher before it is bent.
return step {
  id = "checking", title = "Checking distance", stage = "refine", unit = "mm", scope = "every",
  plain = "How a hammer lets go of its key, and is caught after it has struck",
  ask = "Play a medium blow, hold the key, and read from the caught hammer to the string.",
  why = "A hammer that is not caught strikes twice or falls far.",
  target = range(14, 17, 15.5),         -- 5/8 in on verticals, 15 in a list of figures
  resolution = 0.5, gauge = 0.5, even = 1.5, across = "colours",
  fix = { "backcheck_wire" },
  method = "medium blow",
  source = "digest-2010-upright; page-2011-upright: 5/8 in; common-practice: the band, evenness",
}
