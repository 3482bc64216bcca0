-- Repetition spring, first time: strong enough to carry the hammer, no more is asked yet.
return step {
  id = "spring_rough", title = "Spring roughly strong", stage = "set", kind = "judged", scope = "every",
  plain = "How quickly a note can be repeated",
  ask = "Lift the hammer and let it down. The repetition lever carries it each time.",
  why = "A lever that sinks gives another hammer height at each try, so the line can't be set.",
  faults = {
    { "weak", means = "the lever sinks under the hammer", fix = { { "repetition_spring", "stronger" } } },
  },
  masks = { "blow" },
  source = "page-grand-parts: part X",
}
