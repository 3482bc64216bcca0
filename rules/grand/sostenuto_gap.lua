-- Sostenuto gap: the blade's place against the tabs.
return step {
  id = "sostenuto_gap", title = "Sostenuto blade to tabs", stage = "dampers", unit = "mm", scope = "once",
  plain = "Pedals",
  ask = "Rod at rest. Read the blade's gap above the tabs and in front of them. Write the one that is further out.",
  why = "Too near and it catches dampers that should fall. Too far and it drops what it should hold.",
  target = range(1.1, 2.1, 1.6),
  resolution = 0.1, gauge = 0.3,
  fix = { "sostenuto_rod" },
  source = "list-1999-sostenuto; common-practice: the band",
}
