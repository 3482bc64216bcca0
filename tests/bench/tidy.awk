# The bare range check of a tidy fleet, nothing else.
#   mawk -f tidy.awk limits.csv fleet.csv
BEGIN { FS = "," }
FILENAME == ARGV[1] { low[$1, $2] = $3; high[$1, $2] = $5; next }
/^#/ || $1 == "sheet" { next }
{
    v = $4 + 0
    if (v < low[$3, $2]) { bad[$3]++; printf "%s,%s,%s,low,%.2f\n", $1, $2, $3, low[$3, $2] - v }
    else if (v > high[$3, $2]) { bad[$3]++; printf "%s,%s,%s,high,%.2f\n", $1, $2, $3, v - high[$3, $2] }
    else good++
}
END { for (s in bad) print s, bad[s]; print good }
