-- Blow of an upright: set by the rest rail, never by the capstans.
return step {
  id = "blow", title = "Hammer blow", stage = "set", unit = "mm", scope = "every",
  plain = "How the hammers travel and meet their strings",
  ask = "Shanks on the rail. Measure from hammer to string at the section ends, then look along the line.",
  why = "A blow that is too short makes too much aftertouch, a long one too little.",
  target = range(44.4, 48, 46),           -- 1 3/4 in passes: old uprights
  resolution = 0.5, gauge = 0.5, even = 1, across = "colours",  -- one rail carries them all
  fix = { "rest_rail" },
  method = "rule, shanks on the rail",
  source = "digest-2010-upright; list-1998-upright; digest-2003-uprights; page-2011-upright",
}
