return tests "our" {
  { "drop", "A4", reads = 9, want = "pass" },
  { "drop", "A4", reads = 1.6, want = "fail", why = "high" },
  { "repetition", "A4", reads = "weak", want = "pass" },
}
