-- Springs alike: five neighbours eased together rise together. Nobody has published a time in seconds.
return step {
  id = "springs_alike", title = "Springs rise alike", stage = "refine", kind = "judged", scope = "every",
  need = "optional",
  plain = "How quickly a note can be repeated",
  ask = "Catch five neighbours with one blow of a stick and ease them together. All rise at one " ..
    "pace, in about a second.",
  why = "Each spring may pass alone and the five still differ under the finger.",
  faults = {
    { "slower", means = "rises after its neighbours", fix = { { "repetition_spring", "stronger" } } },
    { "faster", means = "rises before its neighbours", fix = { { "repetition_spring", "weaker" } } },
  },
  unsourced = true, source = "common-practice",
}
