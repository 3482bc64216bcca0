-- Jack alignment: each jack stands under the middle of its butt.
return step {
  id = "whippen_alignment", title = "Jacks to butts", stage = "bench", kind = "judged", scope = "every",
  plain = "How a hammer lets go of its key, and is caught after it has struck",
  ask = "Look from below: the jack stands under the middle of the butt and clears its neighbours.",
  why = "A jack to one side wears the butt leather and slips.",
  faults = {
    { "left", means = "stands left of its butt", fix = { { "whippen_flange", "to the right" } } },
    { "right", means = "stands right of its butt", fix = { { "whippen_flange", "to the left" } } },
  },
  unsourced = true,
}
