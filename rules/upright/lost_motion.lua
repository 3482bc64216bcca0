-- Lost motion: key travel before the hammer moves. A trace must stay, for the jack to come home.
return step {
  id = "lost_motion", title = "Lost motion at the key", stage = "set", unit = "mm", scope = "every",
  plain = "How deep the keys go down, and what is felt at the bottom",
  ask = "Press the key as lightly as you can. Read how far its front goes before the hammer moves. Take it up a " ..
    "quarter turn at a time.",
  why = "Too much makes soft playing vague. None at all, and the jack can't return.",
  target = range(0.1, 0.6, 0.3),
  resolution = 0.05, gauge = 0.1, even = 0.3, across = "colours",
  fix = { "capstan" },
  masks = { "aftertouch", "checking" },
  source = "list-2006-lost-motion; handbook-1907; digest-2003-uprights; common-practice: the figures; " ..
    "geometry: past zero",
}
