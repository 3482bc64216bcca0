-- Whippen alignment: each jack and lever centred under its own knuckle. After hammer spacing, or it is done twice.
return step {
  id = "whippen_alignment", title = "Whippens to knuckles", stage = "align", kind = "judged", scope = "every",
  plain = "How a hammer lets go of its key, and is caught after it has struck",
  ask = "Look from the front: jack and lever stand under the middle of the knuckle.",
  why = "A whippen to one side wears the knuckle and rubs its neighbour.",
  faults = {
    { "left", means = "stands left of its knuckle", fix = { { "whippen_flange", "to the right" } } },
    { "right", means = "stands right of its knuckle", fix = { { "whippen_flange", "to the left" } } },
  },
  source = "page-grand-detail: part 8",
}
