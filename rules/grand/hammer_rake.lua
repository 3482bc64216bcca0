-- Rake: the hammer's angle at the string, seen from the side.
return step {
  id = "hammer_rake", title = "Hammer square at the string", stage = "survey", kind = "judged", scope = "sections",
  need = "optional",
  plain = "Measured once, before any work",
  ask = "Lift a sample hammer to its string. Seen from the side it meets the string squarely.",
  why = "A hammer that strikes leaning forward or back slides on the string and wears its crown.",
  faults = {
    { "short", means = "its top points to the player: over-centred",
      todo = "Bore too short or strings high: note it, it is for the next set of hammers." },
    { "long", means = "its top points away from the player",
      todo = "Bore too long or strings low: note it, it is for the next set of hammers." },
  },
  unsourced = true, source = "list-2004-string-height: 48 mm on one model; common-practice: the band",
}
