-- Rest rail gap: shanks hang free of the cushion; the rail catches, it does not carry.
return step {
  id = "rest_rail_gap", title = "Shank above rest cushion", stage = "set", unit = "mm", scope = "every",
  plain = "How the hammers travel and meet their strings",
  ask = "Look along the shanks. Read the gap between shank and cushion.",
  why = "A shank on the cushion gives a false line and lost motion. Far above it, fast repetition jams.",
  target = range(2, 8, 3.2),             -- one shank thickness; 5/16 in passes
  resolution = 0.5, gauge = 0.5, even = 1, across = "colours",
  fix = { "rest_rail", "capstan" },
  masks = { "blow", "aftertouch" },      -- on the cushion nobody can tell where the hammer would hang
  source = "maker-2013-manual; page-2014-blog; college-2009-rest-rail; list-2010-models",
}
