-- Lost motion: key travel before the hammer moves. A trace must stay, for the jack to come home.
return step {
  id = "lost_motion", title = "Lost motion at the key", stage = "set", unit = "mm", scope = "every",
  plain = "How deep the keys go down, and what is felt at the bottom",
  ask = "Press the key as lightly as you can. Read how far its front goes before the hammer moves.",
  why = "Too much makes soft playing vague. None at all, and the jack can't return.",
  target = range(0.1, 1.6, 0.3),         -- 1/16 in passes
  resolution = 0.05, gauge = 0.1,
  fix = { "capstan" },
  source = "digest-2003-uprights; list-1998-upright; handbook-1907; list-2006-upright-touch; geometry: past zero",
}
