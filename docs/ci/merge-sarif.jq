# Reports in SARIF of parts of a fleet to one: jq --slurp --from-file merge-sarif.jq PART.sarif...
# Each part has the same rules; places in the list of files are left out, since the files of all parts stand in one list.
map(.runs[0]) as $parts
| .[0]
| .runs = [
    $parts[0]
    | .artifacts = ([$parts[].artifacts[]] | unique_by(.location.uri))
    | .results = [$parts[].results[] | walk(if type == "object" and has("uriBaseId") then del(.index) else . end)]
    | .properties.sites = [$parts[].properties.sites[]]
  ]
