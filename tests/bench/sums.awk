# The sums and first dates of limit.cpp, as one would write them in awk; rows grouped by station, dates in order.
BEGIN { FS = ","; OFS = ","; base = 50; pi = atan2(0, -1); sums[1] = 200; sums[2] = 500; sums[3] = 1000 }
function end_year() {
  if (key != "") printf "%s,%s,%s,%s,%.1f,%s,%s,%s,%.1f\n", key, a[1], a[2], a[3], average, s[1], s[2], s[3], sine
}
NR == 1 { next }
{
  here = $1 "," substr($2, 1, 4)
  if (here != key) {
    end_year(); key = here; average = sine = 0; i = j = 1
    a[1] = a[2] = a[3] = s[1] = s[2] = s[3] = ""
  }
  high = $3 + 0; low = $4 + 0; mean = (high + low) / 2
  if (mean > base) average += mean - base
  while (i <= 3 && average >= sums[i]) a[i++] = $2
  if (low >= base) sine += mean - base
  else if (high > base) {
    half = (high - low) / 2; x = (base - mean) / half; c = sqrt(1 - x * x)
    sine += ((mean - base) * (pi / 2 - atan2(x, c)) + half * c) / pi
  }
  while (j <= 3 && sine >= sums[j]) s[j++] = $2
}
END { end_year() }
