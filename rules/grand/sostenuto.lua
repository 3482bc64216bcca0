-- Sostenuto: three pedal tests and one by the keys. After the up-stop.
return step {
  id = "sostenuto", title = "Sostenuto", stage = "dampers", kind = "judged", scope = "once",
  plain = "Pedals",
  ask = "1. Damper pedal, sostenuto, release damper pedal: all stay up. " ..
    "2. Sostenuto, damper pedal, release sostenuto: it snaps home. " ..
    "3. Sostenuto alone: nothing rises, nothing rubs. " ..
    "4. Hold it and strike every note: none is caught.",
  why = "Damper timing and up-stop must be right first: a hung damper starts there.",
  faults = {
    { "drops", means = "a held damper falls", fix = { { "sostenuto_rod", "nearer" } } },
    { "catches", means = "a struck note is caught", fix = { { "sostenuto_rod", "further" } },
      todo = "Look at the up-stop first." },
    { "rubs", means = "blade touches tabs at rest", fix = { { "sostenuto_rod", "further" } } },
    { "slow", means = "does not snap home", todo = "Free the rod, its spring and the pedal train." },
  },
  source = "list-2008-sostenuto; list-2001-sostenuto; list-2006-sostenuto",
}
