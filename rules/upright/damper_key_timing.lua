-- Damper timing by key: the spoon lifts the damper when the hammer is half way. After the pedal is even.
return step {
  id = "damper_key_timing", title = "Damper timing by spoon", stage = "dampers", kind = "judged", scope = "damped",
  ask = "Press the key slowly. The damper starts when the hammer is half way to the string.",
  why = "Early spoons make a heavy touch, late ones chop the tone.",
  faults = {
    { "early", means = "starts before half way", fix = { { "spoon", "away from its lever" } } },
    { "late", means = "starts after half way", fix = { { "spoon", "toward its lever" } } },
  },
  source = "docs/numbers.md#upright_damper_key_timing",
}
