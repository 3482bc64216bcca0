-- Blow: from the resting hammer to its string. The hammer line is this step's evenness.
return step {
  id = "blow", title = "Hammer blow", stage = "set", unit = "mm", scope = "every",
  plain = "How the hammers travel and meet their strings",
  ask = "Measure from the top of the resting hammer to the string, at the section ends first. Line the rest to them.",
  why = "Blow and dip are one pair: a long blow takes the aftertouch, a short one takes power.",
  target = range(44, 48, 46),           -- holds both published makers' figures, 1 3/4 and 1 7/8 in
  resolution = 0.5, gauge = 0.5, even = 0.5, across = "colours",
  fix = { "capstan" },
  method = "rule",
  source = "maker-regulation; page-service; list-2009-blow; common-practice: the aim, evenness",
}
