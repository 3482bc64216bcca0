-- Damper timing by key: when the spoon lifts the damper. Wires first: they set the pedal, and move this too.
return step {
  id = "damper_key_timing", title = "Damper timing by spoon", stage = "dampers", kind = "judged", scope = "damped",
  plain = "Dampers, which end a note",
  ask = by_choice { "damper_start_at",
    half = "Press the key slowly. The damper starts when the hammer is half way to the string.",
    two_thirds = "Press the key slowly. The damper starts when the hammer is two thirds of the way to the string.",
  },
  why = "Early spoons make a heavy touch, late ones chop the tone.",
  caution = "A spoon is reached with the action leaning forward: hold it, and mind the hammers and the damper wires.",
  faults = {
    { "early", means = "starts sooner", fix = { { "spoon", "away from its lever" } } },
    { "late", means = "starts later", fix = { { "spoon", "toward its lever" } } },
  },
  source = "digest-2000-dampers; list-2001-spoons; list-1998-upright; forum-vertical-dampers: two thirds",
}
