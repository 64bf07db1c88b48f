# Fifty years of weather from the forty of De Bilt: 1970 to 1979 are 1982 to
# 1991, whose leap years fall alike; one day is missing, and wind begins with the
# 22nd year.  The file is given twice.
#     awk -F, -f tests/tools/fifty.awk FILE FILE
BEGIN { OFS = "," }
FNR == 1 {
	for (i = 1; i <= NF; i++)
		if ($i == "wind_ms")
			wind = i
	if (NR == 1)
		print
	next
}
{
	year = substr($1, 1, 4)
	if (NR == FNR) {
		if (year < 1982 || year > 1991)
			next
		$1 = (year -= 12) substr($1, 5)
	}
	if ($1 == "1985-07-09")
		next
	if (year < 1991)
		$wind = ""
	print
}
