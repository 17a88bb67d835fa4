//! The classes of SP 1500-20 that are read here: which fields each has, and the ones that matter
//! as types.
//!
//! The field names are the standard's; `tests/tests/schema.rs` holds the table against NIST's own
//! schema.

use serde::Deserialize;

/// A class's fields, `@type` aside.
#[derive(Debug)]
pub(crate) struct Class {
    /// The name without `BallotDefinition.`.
    pub(crate) name: &'static str,
    /// Fields that must be there.
    pub(crate) required: &'static [&'static str],
    /// Fields that may be there.
    pub(crate) optional: &'static [&'static str],
}

impl Class {
    /// The class of this name, if it is read here.
    pub(crate) fn named(name: &str) -> Option<&'static Self> {
        CLASSES.iter().find(|class| class.name == name)
    }
    /// Whether the class has such a field.
    pub(crate) fn has(&self, field: &str) -> bool {
        self.required.contains(&field) || self.optional.contains(&field)
    }
}

/// The fields that a class of SP 1500-20 must have and those that it may have, `@type` aside, as
/// this crate knows them; nothing for a class that it never reads.
pub fn fields_of(class: &str) -> Option<(&'static [&'static str], &'static [&'static str])> {
    Class::named(class).map(|class| (class.required, class.optional))
}

/// The classes of contests.
pub(crate) const CONTESTS: &[&str] = &[
    "CandidateContest",
    "BallotMeasureContest",
    "RetentionContest",
    "StraightPartyContest",
    "ActivationContest",
    "PartyContest",
    "PartyPreferenceContest",
];

/// `InternationalizedText`: one text in several languages.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "PascalCase", deny_unknown_fields)]
pub(crate) struct ManyLanguages {
    #[serde(rename = "@type")]
    _class: ManyLanguagesClass,
    #[serde(rename = "Label")]
    _label: Option<String>,
    pub(crate) text: Vec<LanguageString>,
}

#[derive(Debug, Deserialize)]
enum ManyLanguagesClass {
    #[serde(rename = "BallotDefinition.InternationalizedText")]
    InternationalizedText,
}

/// `LanguageString`.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "PascalCase", deny_unknown_fields)]
pub(crate) struct LanguageString {
    #[serde(rename = "@type")]
    _class: LanguageStringClass,
    pub(crate) content: String,
    pub(crate) language: String,
}

#[derive(Debug, Deserialize)]
enum LanguageStringClass {
    #[serde(rename = "BallotDefinition.LanguageString")]
    LanguageString,
}

/// `BallotDefinition`, its lists aside.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "PascalCase")]
pub(crate) struct BallotDefinition {
    pub(crate) issuer: String,
    pub(crate) version: String,
    pub(crate) is_test: Option<bool>,
}

/// `Election`, its lists aside.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "PascalCase")]
pub(crate) struct Election {
    pub(crate) name: ManyLanguages,
    #[serde(rename = "ElectionScopeId")]
    pub(crate) scope_id: String,
    pub(crate) start_date: String,
    pub(crate) end_date: String,
    #[serde(rename = "Type")]
    pub(crate) _kind: ElectionType,
}

/// `ElectionType`: read so that a misspelled one is an error; nothing depends on it.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum ElectionType {
    General,
    Other,
    PartisanPrimaryClosed,
    PartisanPrimaryOpen,
    Primary,
    Runoff,
    Special,
}

/// `BallotStyle`, its order aside.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "PascalCase")]
pub(crate) struct BallotStyle {
    #[serde(default)]
    pub(crate) external_identifier: Vec<ExternalIdentifier>,
    pub(crate) gp_unit_ids: Vec<String>,
    #[serde(default)]
    pub(crate) party_ids: Vec<String>,
}

/// `ExternalIdentifier`.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "PascalCase")]
pub(crate) struct ExternalIdentifier {
    #[serde(rename = "Type")]
    pub(crate) kind: String,
    pub(crate) value: String,
}

/// `OrderedContest`.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "PascalCase")]
pub(crate) struct OrderedContest {
    pub(crate) contest_id: String,
    #[serde(default)]
    pub(crate) ordered_contest_option_ids: Vec<String>,
}

/// `OrderedHeader`, what lies under it aside.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "PascalCase")]
pub(crate) struct OrderedHeader {
    pub(crate) header_id: String,
}

/// The fields of all seven classes of contests, their options aside. [`Class`] says which class
/// has which, so here every one that not all have is optional.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "PascalCase")]
pub(crate) struct Contest {
    pub(crate) name: String,
    pub(crate) election_district_id: String,
    pub(crate) ballot_title: Option<ManyLanguages>,
    pub(crate) ballot_sub_title: Option<ManyLanguages>,
    pub(crate) summary_text: Option<ManyLanguages>,
    pub(crate) full_text: Option<ManyLanguages>,
    pub(crate) passage_threshold: Option<ManyLanguages>,
    pub(crate) effect_of_abstain: Option<ManyLanguages>,
    pub(crate) vote_variation: Option<VoteVariation>,
    pub(crate) other_vote_variation: Option<String>,
    pub(crate) votes_allowed: Option<i64>,
    pub(crate) ranks_allowed: Option<i64>,
    pub(crate) candidate_id: Option<String>,
    #[serde(default)]
    pub(crate) controlled_contest_ids: Vec<String>,
    #[serde(rename = "StraightPartyRuleset")]
    pub(crate) _straight_party_ruleset: Option<StraightPartyRuleset>,
}

/// `VoteVariation`.
#[derive(Clone, Copy, Debug, Deserialize, PartialEq, Eq)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum VoteVariation {
    Approval,
    Borda,
    Cumulative,
    Majority,
    NOfM,
    Other,
    Plurality,
    Proportional,
    Range,
    Rcv,
    SuperMajority,
}

/// `StraightPartyRuleset`: read so that a misspelled one is an error; the effects come later.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum StraightPartyRuleset {
    Exclusive,
    Inclusive,
    Other,
}

/// `CandidateOption`.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "PascalCase")]
pub(crate) struct CandidateOption {
    #[serde(default)]
    pub(crate) candidate_ids: Vec<String>,
    #[serde(default)]
    pub(crate) endorsement_party_ids: Vec<String>,
    #[serde(default)]
    pub(crate) is_write_in: bool,
}

/// `PartyOption`.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "PascalCase")]
pub(crate) struct PartyOption {
    pub(crate) party_ids: Vec<String>,
}

/// `BallotMeasureOption`, and `ActivationOption`, which has one field more.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "PascalCase")]
pub(crate) struct Answer {
    pub(crate) selection: ManyLanguages,
    #[serde(default)]
    pub(crate) causes_activation: bool,
}

/// `Candidate`.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "PascalCase")]
pub(crate) struct Candidate {
    pub(crate) ballot_name: ManyLanguages,
    pub(crate) party_id: Option<String>,
    pub(crate) read_name: Option<String>,
}

/// `Header`, its name aside.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "PascalCase")]
pub(crate) struct Headered {
    pub(crate) headered_content: Option<ManyLanguages>,
}

/// `Party`, `Coalition`, `Header`, `ReportingUnit`: what has a name. Only a unit may lack it.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "PascalCase")]
pub(crate) struct Named {
    pub(crate) name: Option<ManyLanguages>,
}

/// Every class read here.
const CLASSES: &[Class] = &[
    Class {
        name: "BallotDefinition",
        required: &[
            "GeneratedDate",
            "Issuer",
            "IssuerAbbreviation",
            "SequenceEnd",
            "SequenceStart",
            "VendorApplicationId",
            "Version",
        ],
        optional: &[
            "BallotFormat",
            "Election",
            "ExternalIdentifier",
            "GpUnit",
            "Header",
            "IsTest",
            "Notes",
            "Office",
            "OfficeGroup",
            "Party",
            "Person",
            "Shape",
            "TestType",
        ],
    },
    Class {
        name: "Election",
        required: &["ElectionScopeId", "EndDate", "Name", "StartDate", "Type"],
        optional: &[
            "BallotStyle",
            "Candidate",
            "ContactInformation",
            "Contest",
            "ExternalIdentifier",
            "OtherType",
        ],
    },
    Class {
        name: "BallotStyle",
        required: &["GpUnitIds"],
        optional: &[
            "ExternalIdentifier",
            "ImageUri",
            "Language",
            "OrderedContent",
            "PartyIds",
            "Purpose",
        ],
    },
    Class {
        name: "OrderedContest",
        required: &["ContestId"],
        optional: &["OrderedContestOptionIds", "Physical"],
    },
    Class { name: "OrderedHeader", required: &["HeaderId"], optional: &["OrderedContent"] },
    Class {
        name: "BallotMeasureContest",
        required: &["@id", "ElectionDistrictId", "Name"],
        optional: &[
            "Abbreviation",
            "BallotSubTitle",
            "BallotTitle",
            "ConStatement",
            "ContestOption",
            "EffectOfAbstain",
            "ExternalIdentifier",
            "FullText",
            "HasRotation",
            "InfoUri",
            "OtherType",
            "OtherVoteVariation",
            "PassageThreshold",
            "ProStatement",
            "SequenceOrder",
            "SummaryText",
            "TotalSubUnits",
            "Type",
            "VoteVariation",
        ],
    },
    Class {
        name: "CandidateContest",
        required: &["@id", "ElectionDistrictId", "Name", "VotesAllowed"],
        optional: &[
            "Abbreviation",
            "BallotSubTitle",
            "BallotTitle",
            "ContestOption",
            "ExternalIdentifier",
            "HasRotation",
            "NumberElected",
            "NumberRunoff",
            "OfficeIds",
            "OtherVoteVariation",
            "PrimaryPartyIds",
            "RanksAllowed",
            "SequenceOrder",
            "TotalSubUnits",
            "VoteVariation",
        ],
    },
    Class {
        name: "PartyContest",
        required: &["@id", "ElectionDistrictId", "Name"],
        optional: &[
            "Abbreviation",
            "BallotSubTitle",
            "BallotTitle",
            "ContestOption",
            "ExternalIdentifier",
            "HasRotation",
            "OtherVoteVariation",
            "SequenceOrder",
            "TotalSubUnits",
            "VoteVariation",
        ],
    },
    Class {
        name: "PartyPreferenceContest",
        required: &["@id", "ControlledContestIds", "ElectionDistrictId", "Name"],
        optional: &[
            "Abbreviation",
            "BallotSubTitle",
            "BallotTitle",
            "ContestOption",
            "ExternalIdentifier",
            "HasRotation",
            "OtherVoteVariation",
            "SequenceOrder",
            "TotalSubUnits",
            "VoteVariation",
        ],
    },
    Class {
        name: "RetentionContest",
        required: &["@id", "CandidateId", "ElectionDistrictId", "Name"],
        optional: &[
            "Abbreviation",
            "BallotSubTitle",
            "BallotTitle",
            "ConStatement",
            "ContestOption",
            "EffectOfAbstain",
            "ExternalIdentifier",
            "FullText",
            "HasRotation",
            "InfoUri",
            "OfficeId",
            "OtherType",
            "OtherVoteVariation",
            "PassageThreshold",
            "ProStatement",
            "SequenceOrder",
            "SummaryText",
            "TotalSubUnits",
            "Type",
            "VoteVariation",
        ],
    },
    Class {
        name: "StraightPartyContest",
        required: &[
            "@id",
            "ControlledContestIds",
            "ElectionDistrictId",
            "Name",
            "StraightPartyRuleset",
        ],
        optional: &[
            "Abbreviation",
            "BallotSubTitle",
            "BallotTitle",
            "ContestOption",
            "ExternalIdentifier",
            "HasRotation",
            "OtherStraightPartyRuleset",
            "OtherVoteVariation",
            "SequenceOrder",
            "TotalSubUnits",
            "VoteVariation",
        ],
    },
    Class {
        name: "ActivationContest",
        required: &["@id", "ControlledContestIds", "ElectionDistrictId", "Name"],
        optional: &[
            "Abbreviation",
            "BallotSubTitle",
            "BallotTitle",
            "CandidateId",
            "ContestOption",
            "ExternalIdentifier",
            "HasRotation",
            "OtherVoteVariation",
            "SequenceOrder",
            "SummaryText",
            "TotalSubUnits",
            "VoteVariation",
        ],
    },
    Class {
        name: "PartyOption",
        required: &["@id", "PartyIds"],
        optional: &["ExternalIdentifier", "SequenceOrder"],
    },
    Class {
        name: "ActivationOption",
        required: &["@id", "CausesActivation", "Selection"],
        optional: &["ExternalIdentifier", "SequenceOrder"],
    },
    Class {
        name: "BallotMeasureOption",
        required: &["@id", "Selection"],
        optional: &["ExternalIdentifier", "SequenceOrder"],
    },
    Class {
        name: "CandidateOption",
        required: &["@id"],
        optional: &[
            "CandidateIds",
            "EndorsementPartyIds",
            "ExternalIdentifier",
            "IsWriteIn",
            "SequenceOrder",
        ],
    },
    Class {
        name: "Candidate",
        required: &["@id", "BallotName"],
        optional: &[
            "CampaignSlogan",
            "ContactInformation",
            "ExternalIdentifier",
            "FileDate",
            "IsIncumbent",
            "IsTopTicket",
            "PartyId",
            "PersonId",
            "PreElectionStatus",
            "ReadName",
        ],
    },
    Class {
        name: "Party",
        required: &["@id", "Name"],
        optional: &[
            "Abbreviation",
            "Color",
            "ContactInformation",
            "ExternalIdentifier",
            "IsRecognizedParty",
            "LeaderPersonIds",
            "LogoUri",
            "PartyScopeGpUnitIds",
            "Slogan",
        ],
    },
    Class {
        name: "Coalition",
        required: &["@id", "Name"],
        optional: &[
            "Abbreviation",
            "Color",
            "ContactInformation",
            "ContestIds",
            "ExternalIdentifier",
            "IsRecognizedParty",
            "LeaderPersonIds",
            "LogoUri",
            "PartyIds",
            "PartyScopeGpUnitIds",
            "Slogan",
        ],
    },
    Class {
        name: "ReportingUnit",
        required: &["@id", "Type"],
        optional: &[
            "AuthorityIds",
            "ComposingGpUnitIds",
            "ContactInformation",
            "ElectionAdministration",
            "ExternalIdentifier",
            "IsDistricted",
            "IsMailOnly",
            "Name",
            "Number",
            "OtherType",
            "PartyRegistration",
            "SpatialDimension",
            "TotalSubUnits",
            "VotersRegistered",
        ],
    },
    Class {
        name: "Header",
        required: &["@id", "Name"],
        optional: &["ExternalIdentifier", "HeaderedContent"],
    },
];
