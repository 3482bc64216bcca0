-- Sostenuto tabs: one line, each with a live spring. It follows the underlevers' line.
return step {
  id = "sostenuto_tabs", title = "Sostenuto tabs in line", stage = "dampers", kind = "judged", scope = "damped",
  need = "optional",
  plain = "Pedals",
  ask = "Dampers at rest, look along the tabs: one line. Flick each: it springs back.",
  why = "A tab out of line is missed by the blade, or caught when it should not be.",
  faults = {
    { "low", means = "its tip lies under the line", fix = { { "damper_wire", "raise" } },
      todo = "If the lever itself is in line, the tab is bent: bend it back." },
    { "high", means = "its tip lies over the line", fix = { { "damper_wire", "lower" } },
      todo = "If the lever itself is in line, the tab is bent: bend it back." },
    { "weak", means = "hangs, or is slow to spring back", todo = "Free its centre; renew the spring." },
  },
  source = "list-2008-sostenuto; list-2006-sostenuto",
}
