-- Centres: friction in the flanges. Before anything is read off the action.
return step {
  id = "centres", title = "Centres", stage = "prepare", kind = "judged", scope = "every",
  plain = "How heavy the keys feel",
  ask = "Swing the hammer, lift the whippen, flick the jack. Each moves freely and without side play.",
  caution = "A reamed or thin bushing has little cloth and glue left: go up one pin size at a time.",
  why = "A stiff centre falsifies the rest position and weighs like lead. A loose one clicks and wanders.",
  faults = {
    { "tight", means = "slow, or stops part way", fix = { { "centre_pin", "freer" } } },
    { "loose", means = "side play, or swings too long", fix = { { "centre_pin", "firmer" } } },
    { "click", means = "a click when moved by hand", fix = { { "centre_pin", "firmer" } },
      todo = "First try the flange screw and the glue joints." },
  },
  masks = { "blow" },
  source = "parts-2023-flanges; college-2006-flange-grams; list-2004-weights: swings; list-2003-false-line",
}
