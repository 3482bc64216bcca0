-- Checking after a hard blow: caught again, and not driven home.
return step {
  id = "check_forte", title = "Checking after a hard blow", stage = "refine", kind = "judged", scope = "every",
  plain = "How a hammer lets go of its key, and is caught after it has struck",
  ask = "Strike hard and hold: the hammer is caught near where a medium blow leaves it. Let go: it comes free at once.",
  why = "A check that is right for a medium blow may let a hard one slip, or wedge it.",
  caution = "Loud blows: mind your hearing, and play no harder than the test needs.",
  faults = {
    { "slips", means = "not caught, or caught far lower", fix = { { "backcheck", "toward the tail" } },
      todo = "First aftertouch and the check's angle. A polished tail wants roughening." },
    { "jams", means = "wedged, slow to come free", fix = { { "backcheck", "away from the tail" } },
      todo = "First the check's angle and height." },
    { "climbs", means = "caught at another height with every blow",
      todo = "Look for a soft check wire, a loose key bushing and a worn tail." },
  },
  unsourced = true, source = "common-practice",
}
