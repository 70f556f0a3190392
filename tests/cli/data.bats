#!/usr/bin/env bats
# Messages as data: JSON, JSON lines, SARIF.
load kit

# Notes with many kinds of trouble, among them all that is hard in JSON.
trouble() {
    notes '7 nett' '7' '7net' "$(printf '7\tm4/3\tnett')" "$(printf '7 net # S\370ren')" \
        "$(printf '7\302\240net')" 'note "a \"quote\" and \\"' 'note "open' '7 ace ?' \
        "$(printf '7 \001net')"
    printf 'match 2026-10-04 "Č e\314\201 測 \360\237\230\200" oops\n'
}

valid() { # SCHEMA FILE
    python3 - "$1" "$2" <<'END'
import json, sys
import jsonschema
schema, data = (json.load(open(name)) for name in sys.argv[1:])
jsonschema.Draft7Validator.check_schema(schema)
jsonschema.Draft7Validator(schema).validate(data)
END
}

@test "json: valid by the schema that is shipped" {
    trouble >a.9m
    good_notes >good.9m
    for arguments in 'a.9m' '--review a.9m' '--max-errors 2 a.9m good.9m' 'good.9m' 'missing.9m a.9m'; do
        9m check --as json $arguments >out.json 2>/dev/null || true
        valid "$ROOT/grammar/check.schema.json" out.json
    done
}

@test "the schema refuses what is not of this form" {
    trouble >a.9m
    9m check --as json a.9m >out.json || true
    for change in 'del(.schema)' '.schema = 2' 'del(.messages[0].code)' '.messages[0].code = "E1"' \
        '.messages[0].line = 0' 'del(.messages[0].end)' '.messages[0].severity = "fatal"' 'del(.summary)' \
        '(.messages[] | select(.fix)).fix.edits = []'; do
        jq "$change" out.json >changed.json
        run valid "$ROOT/grammar/check.schema.json" changed.json
        [ "$status" != 0 ] || { echo "accepted: $change"; return 1; }
    done
}

@test "jsonl: each line valid by the same schema, the messages of the json form" {
    trouble >a.9m
    9m check --as jsonl a.9m >out.jsonl || true
    [ -s out.jsonl ]
    while IFS= read -r line; do
        printf '%s\n' "$line" >line.json
        valid "$ROOT/grammar/check.schema.json" line.json
    done <out.jsonl
    same "$(jq -c 'del(.schema)' out.jsonl)" "$(9m check --as json a.9m | jq -c '.messages[]')"
}

@test "no messages: json has an empty list, jsonl prints nothing, exit 0" {
    good_notes >a.9m
    9m check --as json a.9m | jq -e '.messages == [] and .failures == [] and .summary.files == 1
        and .summary.lines == 8 and .summary.unread == 0'
    [ -z "$(9m check --as jsonl a.9m)" ]
    9m check --as sarif a.9m | jq -e '.runs[0].results == []'
}

@test "the same content as the text form" {
    trouble >a.9m
    same "$(9m check --as json a.9m | jq -r '.messages[] | select(.line)
            | "\(.file):\(.line):\(.start.display): \(.severity): \(.message) [\(.code)]"')" \
        "$(9m check --as short a.9m || true)"
}

@test "a file that cannot be read is in the data too" {
    run --separate-stderr 9m check --as json missing.9m
    [ "$status" = 3 ]
    jq -e '.failures == [{file: "missing.9m", reason: "No such file or directory"}]' <<<"$output"
    run --separate-stderr 9m check --as sarif missing.9m
    [ "$status" = 3 ]
    jq -e '.runs[0].invocations[0].executionSuccessful == false
        and .runs[0].invocations[0].toolExecutionNotifications[0].message.text
            == "No such file or directory"' <<<"$output"
}

@test "columns in bytes, code points, UTF-16 units and cells" {
    # Č: 2 bytes, 1 unit, 1 cell. e with U+0301: 3 bytes, 2 code points, 1 cell.
    # 測: 3 bytes, 1 unit, 2 cells. U+1F600: 4 bytes, 1 code point, 2 units, 2 cells.
    # Worked out by hand: match, blank, date, blank, quote are 18 cells; the letter,
    # a quote and a blank stand before the word.
    {
        printf 'notation 1\n'
        printf 'match 2026-10-03 "\304\214" oops\n'
    } >a.9m
    9m check --as json a.9m | jq -e '.messages[] | select(.line == 2)
        | .start == {display: 22, byte: 23, character: 22, utf16: 22}
        and .end == {display: 26, byte: 27, character: 26, utf16: 26}'
    printf 'notation 1\nmatch 2026-10-03 "e\314\201" oops\n' >a.9m
    9m check --as json a.9m | jq -e '.messages[] | select(.line == 2)
        | .start == {display: 22, byte: 24, character: 23, utf16: 23}'
    printf 'notation 1\nmatch 2026-10-03 "測" oops\n' >a.9m
    9m check --as json a.9m | jq -e '.messages[] | select(.line == 2)
        | .start == {display: 23, byte: 24, character: 22, utf16: 22}'
    printf 'notation 1\nmatch 2026-10-03 "\360\237\230\200" oops\n' >a.9m
    9m check --as json a.9m | jq -e '.messages[] | select(.line == 2)
        | .start == {display: 23, byte: 25, character: 22, utf16: 23}'
}

@test "byte columns cut the word out of the file" {
    trouble >a.9m
    9m check --as json a.9m >out.json || true
    python3 - <<'END'
import json
lines = open("a.9m", "rb").read().split(b"\n")
messages = [m for m in json.load(open("out.json"))["messages"] if m.get("line")]
assert len(messages) >= 8
for m in messages:
    line = lines[m["line"] - 1]
    shown = line.decode("utf-8", "replace")
    assert m["source"] == shown, (m["source"], shown)
    part = line[m["start"]["byte"] - 1:m["end"]["byte"] - 1].decode("utf-8", "replace")
    assert part == shown[m["start"]["character"] - 1:m["end"]["character"] - 1], m
    units = shown.encode("utf-16-le")
    assert part == units[2 * m["start"]["utf16"] - 2:2 * m["end"]["utf16"] - 2].decode("utf-16-le"), m
assert any(lines[m["line"] - 1][m["start"]["byte"] - 1:m["end"]["byte"] - 1] == b"nett" for m in messages)
END
}

# ---- SARIF -----------------------------------------------------------------

# Required and typed properties of the OASIS Standard SARIF 2.1.0 (27 March
# 2020) for the objects used here, by section: sarifLog 3.13, run 3.14, tool
# 3.18, toolComponent 3.19, invocation 3.20, result 3.27, location 3.28,
# physicalLocation 3.29, region 3.30, fix 3.55, artifactChange 3.56,
# replacement 3.57, reportingDescriptor 3.49. Written by hand for this test; the
# schema of the standard itself is used in tests/world.
reduced_schema() {
    cat <<'END'
{ "$schema": "http://json-schema.org/draft-07/schema#",
  "type": "object", "required": ["version", "runs"],
  "properties": {
    "version": { "const": "2.1.0" },
    "runs": { "type": "array", "items": { "$ref": "#/definitions/run" } } },
  "definitions": {
    "message": { "type": "object", "required": ["text"], "properties": { "text": { "type": "string" } } },
    "level": { "enum": ["none", "note", "warning", "error"] },
    "run": { "type": "object", "required": ["tool", "results"], "properties": {
      "tool": { "type": "object", "required": ["driver"], "properties": { "driver": {
        "type": "object", "required": ["name"], "properties": {
          "rules": { "type": "array", "uniqueItems": true, "items": {
            "type": "object", "required": ["id"], "properties": {
              "shortDescription": { "$ref": "#/definitions/message" },
              "fullDescription": { "$ref": "#/definitions/message" },
              "defaultConfiguration": { "type": "object", "properties": {
                "level": { "$ref": "#/definitions/level" } } } } } } } } } },
      "invocations": { "type": "array", "items": { "type": "object",
        "required": ["executionSuccessful"],
        "properties": { "executionSuccessful": { "type": "boolean" } } } },
      "columnKind": { "enum": ["utf16CodeUnits", "unicodeCodePoints"] },
      "results": { "type": "array", "items": { "$ref": "#/definitions/result" } } } },
    "result": { "type": "object", "required": ["message", "ruleId", "level", "locations"], "properties": {
      "message": { "$ref": "#/definitions/message" },
      "level": { "$ref": "#/definitions/level" },
      "ruleIndex": { "type": "integer", "minimum": 0 },
      "locations": { "type": "array", "items": { "$ref": "#/definitions/location" } },
      "relatedLocations": { "type": "array", "uniqueItems": true,
        "items": { "$ref": "#/definitions/location" } },
      "fixes": { "type": "array", "items": { "type": "object", "required": ["artifactChanges"],
        "properties": { "artifactChanges": { "type": "array", "minItems": 1, "items": {
          "type": "object", "required": ["artifactLocation", "replacements"], "properties": {
            "replacements": { "type": "array", "minItems": 1, "items": { "type": "object",
              "required": ["deletedRegion"],
              "properties": { "deletedRegion": { "$ref": "#/definitions/region" },
                "insertedContent": { "$ref": "#/definitions/message" } } } } } } } } } } } },
    "location": { "type": "object", "required": ["physicalLocation"], "properties": {
      "physicalLocation": { "type": "object", "required": ["artifactLocation"], "properties": {
        "artifactLocation": { "type": "object", "required": ["uri"],
          "properties": { "uri": { "type": "string", "pattern": "^[-A-Za-z0-9._~/%:]+$" } } },
        "region": { "$ref": "#/definitions/region" } } } } },
    "region": { "type": "object", "required": ["startLine"], "properties": {
      "startLine": { "type": "integer", "minimum": 1 },
      "startColumn": { "type": "integer", "minimum": 1 },
      "endColumn": { "type": "integer", "minimum": 1 } } } } }
END
}

@test "sarif: what the standard requires" {
    trouble >a.9m
    reduced_schema >sarif.json
    for arguments in 'a.9m' '--review a.9m' 'missing.9m'; do
        9m check --as sarif $arguments >out.sarif 2>/dev/null || true
        valid sarif.json out.sarif
    done
    jq 'del(.runs[0].tool.driver.name)' out.sarif >changed.sarif
    run valid sarif.json changed.sarif
    [ "$status" != 0 ]
}

@test "sarif: every result points to its rule; only rules that are used are listed" {
    trouble >a.9m
    9m check --as sarif --review a.9m >out.sarif || true
    jq -e '.runs[0] as $run | ($run.results | length) >= 8
        and all($run.results[]; $run.tool.driver.rules[.ruleIndex].id == .ruleId)
        and ([$run.tool.driver.rules[].id] | sort) == ([$run.results[].ruleId] | unique)' out.sarif
}

@test "sarif: the columns are UTF-16 units, the others are properties" {
    printf 'notation 1\nmatch 2026-10-03 "\360\237\230\200" oops\n' >a.9m
    9m check --as sarif a.9m | jq -e '.runs[0] | .columnKind == "utf16CodeUnits"
        and (.results[] | .locations[0].physicalLocation.region | select(.startLine == 2)
            | .startColumn == 23 and .properties.startByte == 25 and .properties.startCharacter == 22
                and .properties.startDisplay == 23)'
}

@test "sarif: names become URI references" {
    mkdir 'a b'
    notes '7 nett' >'a b/Łódź #1.9m'
    9m check --as sarif 'a b' | jq -e '.runs[0].results[0].locations[0].physicalLocation.artifactLocation.uri
        == "a%20b/%C5%81%C3%B3d%C5%BA%20%231.9m"'
    notes '7 nett' >a.9m
    9m check --as sarif "$PWD/a.9m" | jq -e '.runs[0].results[0].locations[0].physicalLocation.artifactLocation.uri
        | startswith("file:///")'
}

@test "sarif: a mend is offered as a fix" {
    notes '7 nett' >a.9m
    9m check --as sarif a.9m | jq -e '.runs[0].results[0].fixes[0].artifactChanges[0].replacements[0]
        | .deletedRegion.startLine == 6 and .insertedContent.text != null'
}
