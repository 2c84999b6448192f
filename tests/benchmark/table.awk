# Google Benchmark's lines about functions_benchmark as one table: a row for each function.
function add(list, item) { return list == "" ? item : list ", " item }
/^[a-z_]+::/ && $1 !~ /_(BigO|RMS)$/ {
    split($1, path, "/")
    if (!(path[1] in seen)) { seen[path[1]] = 1; order[++count] = path[1] }
    time = $4 " " $5  # of the processor
    if (path[3] == "") single[path[1]] = add(single[path[1]], path[2] " " time)
    else if (path[3] == 1000) rows[path[1]] = (rows[path[1]] == "" ? "" : rows[path[1]] "; ") time
    else rows[path[1]] = rows[path[1]] " / " time
    next
}
/^All limits/ { kept = $0 }
/^Odds of/ { room = $0 }
END {
    print kept == "" ? "Not all limits of the functions were kept." : kept "."
    if (room != "") print room "."
    print "\n| function | single calls | 1,000 / 10,000 / 100,000 rows |\n| --- | --- | --- |"
    for (row = 1; row <= count; ++row) printf "| `%s` | %s | %s |\n", order[row], single[order[row]], rows[order[row]]
}
