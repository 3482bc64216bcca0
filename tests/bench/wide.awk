# The bare range check of a wide fleet, nothing else: a line for each reading that is out, and counts.
#   mawk -f wide.awk limits.csv fleet.csv
BEGIN { FS = "," }
FILENAME == ARGV[1] { low[$1, $2] = $3; high[$1, $2] = $5; next }
/^#/ { next }
$1 == "sheet" { for (i = 3; i <= NF; i++) step[i] = $i; n = NF; next }
{
    for (i = 3; i <= n; i++) {
        if ($i == "") { blank++; continue }
        s = step[i]; v = $i + 0
        if (v < low[s, $2]) { bad[s]++; printf "%s,%s,%s,low,%.2f\n", $1, $2, s, low[s, $2] - v }
        else if (v > high[s, $2]) { bad[s]++; printf "%s,%s,%s,high,%.2f\n", $1, $2, s, v - high[s, $2] }
        else good++
    }
}
END { for (s in bad) print s, bad[s]; print good, blank }
