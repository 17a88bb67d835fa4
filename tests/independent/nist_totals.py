"""Counts votes from readings of paper and compares them with NIST's published results.

Shares no code with Evenhand: it reads NIST's ballot definition (SP 1500-20) and election results
(SP 1500-100) itself, and takes from the replay only a list of what was read on each sheet.

    nist_totals.py DEFINITION.json RESULTS.json READINGS.jsonl
    nist_totals.py --self-test

A reading is one line of JSON:
    {"record": id, "unit": id, "contests": {contest id: [{"option": id, "rank": n or null}, ...]}}
with every contest of the ballot, also an empty one.

The straight-party rule (StraightPartyRuleset of the definition; the schema gives only its names, the
meaning is as in the project's table of requirements):
  exclusive  a contest in which the voter chose anybody directly gets nothing from the party.
  inclusive  the party's people are added to those chosen directly, where there is room for all of
             them; where there isn't, none is added, since nobody can say which.

Compared are: the votes of every option in every unit that has results, and undervotes plus overvotes.
Results with a Round (ranked choice) are left aside. A contest with more marks than allowed gives no
option a vote; since such a contest was left empty in the replay, NIST's overvotes are undervotes here,
and only their sum can be compared. In a primary a ballot takes part only in the contests of the party
that it has votes for: a contest of another party has no undervote from it.
"""

import json
import sys


class Bad(Exception):
    """The files can't be compared."""


def options_of(contest):
    return {option["@id"]: option for option in contest["ContestOption"]}


def party_of_option(option, candidates):
    """The parties that a candidate option stands for: endorsements, else its first candidate's."""
    if option.get("IsWriteIn"):
        return set()
    if option.get("EndorsementPartyIds"):
        return set(option["EndorsementPartyIds"])
    parties = [candidates[one].get("PartyId") for one in option.get("CandidateIds", [])]
    return {party for party in parties if party}


def limit_of(contest):
    if contest.get("VoteVariation") == "approval":
        return len(contest["ContestOption"])
    return contest.get("VotesAllowed", 1)


def counted(reading, contests, candidates):
    """The options that get a vote in each contest of one ballot."""
    direct = {
        contest: [mark["option"] for mark in marks] for contest, marks in reading["contests"].items()
    }
    given = {contest: list(options) for contest, options in direct.items()}
    for contest_id, chosen in direct.items():
        contest = contests[contest_id]
        if not contest["@type"].endswith("StraightPartyContest") or len(chosen) != 1:
            continue
        parties = set(options_of(contest)[chosen[0]]["PartyIds"])
        rule = contest["StraightPartyRuleset"]
        if rule not in ("inclusive", "exclusive"):
            raise Bad(f"straight-party rule {rule!r} is not known here")
        for controlled in contest["ControlledContestIds"]:
            if controlled not in direct:
                continue
            theirs = [
                option["@id"]
                for option in contests[controlled]["ContestOption"]
                if party_of_option(option, candidates) & parties
                and option["@id"] not in direct[controlled]
            ]
            here = direct[controlled]
            if rule == "exclusive" and here:
                continue
            if len(here) + len(theirs) <= limit_of(contests[controlled]):
                given[controlled] = here + theirs
    return given


def takes_part(contest, given, contests):
    """False for another party's contest on a primary's ballot."""
    parties = set(contest.get("PrimaryPartyIds", []))
    if not parties:
        return True
    return any(
        options and parties & set(contests[other].get("PrimaryPartyIds", []))
        for other, options in given.items()
    )


def count(definition, readings):
    """Votes by (contest, option, unit), and by (contest, unit) how many ballots and votes."""
    election = definition["Election"][0]
    contests = {contest["@id"]: contest for contest in election["Contest"]}
    candidates = {one["@id"]: one for one in election.get("Candidate", [])}
    votes, unused = {}, {}
    for reading in readings:
        given = counted(reading, contests, candidates)
        for contest, options in given.items():
            limit = limit_of(contests[contest])
            ranked = contests[contest].get("VoteVariation") == "rcv"
            if not ranked and len(options) > limit:
                raise Bad(f"record {reading['record']} has too many marks in {contest}")
            for unit in (reading["unit"], None):
                for option in options:
                    key = (contest, option, unit)
                    votes[key] = votes.get(key, 0) + 1
                if not takes_part(contests[contest], given, contests):
                    continue
                key = (contest, unit)
                unused[key] = unused.get(key, 0) + limit - len(options)
    return votes, unused


def whole_units(results, readings):
    """Units of the results that stand for all ballots: those that no ballot names and that aren't
    precincts (the county)."""
    named = {reading["unit"] for reading in readings}
    kinds = {unit["@id"]: unit.get("Type", "") for unit in results["GpUnit"]}
    return {unit for unit, kind in kinds.items() if unit not in named and "precinct" not in kind}


def compare(definition, results, readings):
    """How many figures were compared, and the sentences for those that differ."""
    votes, unused = count(definition, readings)
    whole = whole_units(results, readings)
    compared, wrong = {"votes": 0, "unused votes": 0, "rounds left aside": 0}, []
    for contest in results["Election"][0]["Contest"]:
        contest_id = contest["@id"]
        for selection in contest["ContestSelection"]:
            for figure in selection["VoteCounts"]:
                if "Round" in figure:
                    compared["rounds left aside"] += 1
                    continue
                unit = None if figure["GpUnitId"] in whole else figure["GpUnitId"]
                ours = votes.get((contest_id, selection["@id"], unit), 0)
                compared["votes"] += 1
                if ours != figure["Count"]:
                    wrong.append(
                        f"{contest_id} {selection['@id']} in {figure['GpUnitId']}: "
                        f"paper {ours}, published {figure['Count']}"
                    )
        for figure in contest.get("OtherCounts", []):
            unit = None if figure["GpUnitId"] in whole else figure["GpUnitId"]
            ours = unused.get((contest_id, unit), 0)
            theirs = figure["Undervotes"] + figure["Overvotes"]
            compared["unused votes"] += 1
            if ours != theirs:
                wrong.append(
                    f"{contest_id} in {figure['GpUnitId']}: paper leaves {ours} votes unused, "
                    f"published {figure['Undervotes']} undervotes + {figure['Overvotes']} overvotes"
                )
    # The other way round: no vote on paper may be missing from the results.
    published = {
        (contest["@id"], selection["@id"])
        for contest in results["Election"][0]["Contest"]
        for selection in contest["ContestSelection"]
    }
    for contest, option, unit in votes:
        if unit is None and (contest, option) not in published:
            wrong.append(f"{contest} {option} has votes on paper and is not in the results")
    return compared, wrong


def self_test():
    """Small elections that tell the two rules apart, and faults that must be found."""

    def definition(rule):
        return {
            "Election": [
                {
                    "Candidate": [
                        {"@id": "a1", "PartyId": "ash"},
                        {"@id": "a2", "PartyId": "ash"},
                        {"@id": "b1", "PartyId": "birch"},
                    ],
                    "Contest": [
                        {
                            "@id": "party",
                            "@type": "BallotDefinition.StraightPartyContest",
                            "StraightPartyRuleset": rule,
                            "ControlledContestIds": ["one", "two", "elsewhere"],
                            "ContestOption": [
                                {"@id": "p-ash", "PartyIds": ["ash"]},
                                {"@id": "p-birch", "PartyIds": ["birch"]},
                            ],
                        },
                        {
                            "@id": "one",
                            "@type": "BallotDefinition.CandidateContest",
                            "VotesAllowed": 1,
                            "ContestOption": [
                                {"@id": "o-a1", "CandidateIds": ["a1"]},
                                {"@id": "o-b1", "CandidateIds": ["b1"]},
                            ],
                        },
                        {
                            "@id": "two",
                            "@type": "BallotDefinition.CandidateContest",
                            "VotesAllowed": 2,
                            "ContestOption": [
                                {"@id": "t-a2", "CandidateIds": ["a2"]},
                                {"@id": "t-b1", "CandidateIds": ["b1"]},
                            ],
                        },
                    ],
                }
            ]
        }

    def given(rule, party, one, two):
        marks = {"party": party, "one": one, "two": two}
        reading = {
            "record": "r",
            "unit": "u",
            "contests": {c: [{"option": o} for o in options] for c, options in marks.items()},
        }
        election = definition(rule)["Election"][0]
        contests = {contest["@id"]: contest for contest in election["Contest"]}
        candidates = {one["@id"]: one for one in election["Candidate"]}
        out = counted(reading, contests, candidates)
        return out["one"], out["two"]

    cases = [
        # rule, party, one, two -> one, two
        ("inclusive", [], ["o-b1"], [], ["o-b1"], []),
        ("inclusive", ["p-ash"], [], [], ["o-a1"], ["t-a2"]),
        ("exclusive", ["p-ash"], [], [], ["o-a1"], ["t-a2"]),
        # No room for the party's: a direct choice stands alone under both rules.
        ("inclusive", ["p-ash"], ["o-b1"], [], ["o-b1"], ["t-a2"]),
        ("exclusive", ["p-ash"], ["o-b1"], [], ["o-b1"], ["t-a2"]),
        # Room beside a direct choice: here the two rules differ.
        ("inclusive", ["p-ash"], [], ["t-b1"], ["o-a1"], ["t-b1", "t-a2"]),
        ("exclusive", ["p-ash"], [], ["t-b1"], ["o-a1"], ["t-b1"]),
        # A choice that is the party's own isn't counted twice.
        ("inclusive", ["p-ash"], ["o-a1"], ["t-a2"], ["o-a1"], ["t-a2"]),
        # Two parties marked: neither counts.
        ("inclusive", ["p-ash", "p-birch"], [], [], [], []),
    ]
    for rule, party, one, two, want_one, want_two in cases:
        found = given(rule, party, one, two)
        if found != (want_one, want_two):
            raise Bad(f"self-test {rule} {party} {one} {two}: {found}")

    reading = {"record": "r", "unit": "u", "contests": {"party": [], "one": [], "two": []}}
    reading["contests"]["one"] = [{"option": "o-a1"}]

    def results(votes, under):
        counts = [{"GpUnitId": "u", "Count": votes}, {"GpUnitId": "county", "Count": votes}]
        return {
            "GpUnit": [{"@id": "u", "Type": "precinct"}, {"@id": "county", "Type": "other"}],
            "Election": [
                {
                    "Contest": [
                        {
                            "@id": "one",
                            "ContestSelection": [{"@id": "o-a1", "VoteCounts": counts}],
                            "OtherCounts": [{"GpUnitId": "u", "Undervotes": under, "Overvotes": 0}],
                        }
                    ]
                }
            ],
        }

    for votes, under, want in [(1, 0, 0), (2, 0, 2), (1, 1, 1)]:
        _, wrong = compare(definition("inclusive"), results(votes, under), [reading])
        if len(wrong) != want:
            raise Bad(f"self-test of comparing {votes} {under}: {wrong}")
    print(f"self-test: {len(cases)} ballots and 3 comparisons as they should be")


def main(args):
    if args == ["--self-test"]:
        self_test()
        return 0
    definition_path, results_path, readings_path = args
    with open(definition_path, encoding="utf-8") as file:
        definition = json.load(file)
    with open(results_path, encoding="utf-8") as file:
        results = json.load(file)
    with open(readings_path, encoding="utf-8") as file:
        readings = [json.loads(line) for line in file if line.strip()]
    compared, wrong = compare(definition, results, readings)
    for sentence in wrong:
        print("DIFFERS", sentence)
    words = ", ".join(f"{number} {what}" for what, number in compared.items())
    print(f"{len(readings)} ballots; compared: {words}; different: {len(wrong)}")
    if not readings or compared["votes"] == 0:
        print("nothing was compared")
        return 1
    return 1 if wrong else 0


if __name__ == "__main__":
    try:
        sys.exit(main(sys.argv[1:]))
    except Bad as fault:
        print("FAULT", fault)
        sys.exit(2)
