//! An invented county's elections and plain wordings, for tests and benchmarks of the paper crates.
//!
//! Included by path, so that no crate ships it. People and places are made up.

use evenhand_rules::{
    Contest, ContestKind, ContestOption, Election, Header, Item, Language, Name, OptionKind, Rank,
    Rule, Style, Text,
};
use evenhand_sheet::{
    BallotState, InstructionStep, InstructionTexts, NextPage, PagePlace, Side, StepPicture, Wording,
};

/// Plain English and Spanish sentences. The station's own come from `words`.
pub struct PlainWording;

fn in_spanish(language: &Language) -> bool {
    language.tag() == "es"
}

fn pick(language: &Language, english: &str, spanish: &str) -> String {
    if in_spanish(language) { spanish.into() } else { english.into() }
}

impl Wording for PlainWording {
    fn instructions(&self, language: &Language) -> InstructionTexts {
        let step = |picture, english, spanish| InstructionStep {
            text: pick(language, english, spanish),
            picture,
        };
        InstructionTexts {
            title: pick(language, "How to vote", "Cómo votar"),
            steps: vec![
                step(
                    StepPicture::FilledOval,
                    "Fill in the whole oval to the left of your choice. Use a black or blue pen.",
                    "Rellene todo el óvalo a la izquierda de su opción. Use un bolígrafo negro o azul.",
                ),
                step(
                    StepPicture::None,
                    "To vote for a person who is not listed, write the name on the line and fill in the oval beside it.",
                    "Para votar por una persona que no está en la lista, escriba el nombre en la línea y rellene el óvalo al lado.",
                ),
                step(
                    StepPicture::None,
                    "If you make a mistake, ask for a new ballot.",
                    "Si se equivoca, pida otra boleta.",
                ),
            ],
        }
    }
    fn limit(&self, contest: &Contest, language: &Language) -> String {
        match (contest.kind, contest.rule) {
            (_, Rule::Rank { ranks }) => pick(
                language,
                &format!("Rank up to {ranks}: one oval in a row, one in a column"),
                &format!("Clasifique hasta {ranks}: un óvalo por fila, uno por columna"),
            ),
            (ContestKind::Measure | ContestKind::Retention, _) => {
                pick(language, "Choose one answer", "Elija una respuesta")
            }
            (_, Rule::Choose { max: 1 }) => pick(language, "Vote for one", "Vote por uno"),
            (_, Rule::Choose { max }) => {
                pick(language, &format!("Vote for up to {max}"), &format!("Vote por hasta {max}"))
            }
        }
    }
    fn note(&self, _style: &Style, contest: &Contest, language: &Language) -> String {
        if contest.kind == ContestKind::StraightParty {
            let english = "This choice also counts for that party's people below.";
            let spanish = "Esta opción cuenta también para las personas de ese partido.";
            pick(language, english, spanish)
        } else {
            String::new()
        }
    }
    fn write_in(&self, _contest: &Contest, language: &Language) -> String {
        pick(language, "Write in a name", "Escriba un nombre")
    }
    fn rank_heading(&self, rank: Rank, language: &Language) -> String {
        let english = match rank.0 {
            1 => "1st choice".into(),
            2 => "2nd choice".into(),
            3 => "3rd choice".into(),
            rank => format!("{rank}th choice"),
        };
        pick(language, &english, &format!("{}.ª opción", rank.0))
    }
    fn continued(&self, title: &str, language: &Language) -> String {
        pick(language, &format!("{title} (continued)"), &format!("{title} (continuación)"))
    }
    fn date(&self, iso_date: &str, _language: &Language) -> String {
        iso_date.into()
    }
    fn style_code(&self, code: &str, language: &Language) -> String {
        pick(language, &format!("Ballot style {code}"), &format!("Boleta {code}"))
    }
    fn page_note(&self, place: PagePlace, language: &Language) -> String {
        let PagePlace { sheet, sheets, .. } = place;
        let (side, lado) = match place.side {
            Side::Front => ("front", "anverso"),
            Side::Back => ("back", "reverso"),
        };
        let (next, sigue) = match place.next {
            NextPage::OtherSide => ("Turn over to go on.", "Dé la vuelta para seguir."),
            NextPage::NextSheet => ("Go on with the next sheet.", "Siga en la próxima hoja."),
            NextPage::End => ("End of the ballot.", "Fin de la boleta."),
        };
        let english = format!("Sheet {sheet} of {sheets}, {side}. {next}");
        pick(language, &english, &format!("Hoja {sheet} de {sheets}, {lado}. {sigue}"))
    }
    fn stamp(&self, state: BallotState, language: &Language) -> String {
        match state {
            BallotState::Official => String::new(),
            BallotState::Test => pick(language, "Test ballot", "Boleta de prueba"),
            BallotState::Demo => pick(language, "Demo ballot", "Boleta de demostración"),
        }
    }
}

/// English alone.
pub fn english() -> Vec<Language> {
    vec![Language::new("en")]
}

/// English, then Spanish.
pub fn both() -> Vec<Language> {
    vec![Language::new("en"), Language::new("es")]
}

/// A text in both languages.
pub fn text(english: &str, spanish: &str) -> Text {
    let entry = |tag: &str, words: &str| (Language::new(tag), words.to_owned());
    Text::new(vec![entry("en", english), entry("es", spanish)])
}

/// A name in both languages.
pub fn name(english: &str, spanish: &str) -> Name {
    Name::plain(text(english, spanish))
}

/// A name that is the same in every language.
pub fn person(words: &str) -> Name {
    name(words, words)
}

const GIVEN: [&str; 12] = [
    "Maria", "Tobias", "Ines", "Wendell", "José", "Priya", "Augusta", "Leon", "Noor", "Chidi",
    "Beatriz", "Hollis",
];
const FAMILY: [&str; 11] = [
    "Okafor",
    "Lindqvist",
    "Ávila",
    "Marsh",
    "Tanaka",
    "Whitcomb",
    "Núñez",
    "Farrow",
    "Delacroix",
    "Petrov",
    "Amundsen-Reyes",
];
const PARTIES: [(&str, &str); 3] = [
    ("Harbor Party", "Partido del Puerto"),
    ("Orchard Alliance", "Alianza del Huerto"),
    ("No party", "Sin partido"),
];

/// A listed option for an invented person; `at` picks the name and the party.
pub fn candidate(at: usize, with_party: bool) -> ContestOption {
    let shown = format!("{} {}", GIVEN[at % GIVEN.len()], FAMILY[at % FAMILY.len()]);
    let (english, spanish) = PARTIES[at % PARTIES.len()];
    ContestOption {
        id: format!("option-{at}"),
        kind: OptionKind::Listed,
        names: vec![person(&shown)],
        detail: with_party.then(|| text(english, spanish)),
    }
}

/// An answer to a question.
pub fn answer(english: &str, spanish: &str) -> ContestOption {
    ContestOption {
        id: format!("answer-{english}"),
        kind: OptionKind::Listed,
        names: vec![name(english, spanish)],
        detail: None,
    }
}

/// A write-in line.
pub fn write_in() -> ContestOption {
    ContestOption { id: "write-in".into(), kind: OptionKind::WriteIn, names: vec![], detail: None }
}

/// A contest without texts.
pub fn contest(
    id: &str,
    title: Name,
    kind: ContestKind,
    rule: Rule,
    options: Vec<ContestOption>,
) -> Contest {
    Contest {
        id: id.into(),
        title,
        subtitle: None,
        kind,
        is_approval: false,
        rule,
        summary: None,
        full_text: vec![],
        affects: vec![],
        options,
    }
}

/// An office with this many people, `max` to be chosen, and this many write-in lines.
pub fn office(
    id: &str,
    title: Name,
    people: usize,
    max: u16,
    write_ins: usize,
    with_party: bool,
) -> Contest {
    let seed = id.bytes().map(usize::from).sum::<usize>();
    let mut options: Vec<_> = (0..people).map(|at| candidate(seed + at, with_party)).collect();
    options.extend((0..write_ins).map(|_| write_in()));
    contest(id, title, ContestKind::Office, Rule::Choose { max }, options)
}

/// A question with a long text of this many paragraphs.
pub fn measure(id: &str, paragraphs: usize) -> Contest {
    let options = vec![answer("Yes", "Sí"), answer("No", "No")];
    let title = name("Measure 4: library hours", "Medida 4: horario de las bibliotecas");
    let mut measure = contest(id, title, ContestKind::Measure, Rule::Choose { max: 1 }, options);
    measure.summary = Some(text(
        "Shall the county keep its six branch libraries open on Sundays and pay for it by a charge of one cent in each hundred dollars of assessed value?",
        "¿Debe el condado abrir sus seis bibliotecas los domingos y pagarlo con un cargo de un centavo por cada cien dólares de valor tasado?",
    ));
    measure.full_text = vec![
        text(
            "The charge begins on the first day of July after this election and ends five years later. The money may be used only for the wages of library workers, for heating and light, and for books and recordings. Each year the library board publishes what was spent at each branch, and the county auditor examines the account.",
            "El cargo comienza el primer día de julio después de esta elección y termina cinco años más tarde. El dinero se usará solamente para los salarios de quienes trabajan en las bibliotecas, para calefacción y luz, y para libros y grabaciones. Cada año la junta publica lo que se gastó en cada biblioteca, y la auditora del condado examina la cuenta.",
        );
        paragraphs
    ];
    measure
}

/// A ranked office.
pub fn ranked(id: &str, people: usize, ranks: u8) -> Contest {
    let mut options: Vec<_> = (0..people).map(|at| candidate(at * 5 + 2, false)).collect();
    options.push(write_in());
    let title = name("Mayor of Saltmarsh", "Alcaldía de Saltmarsh");
    contest(id, title, ContestKind::Office, Rule::Rank { ranks }, options)
}

/// A ticket of two people a party.
pub fn ticket(id: &str) -> Contest {
    let title = name("Governor and lieutenant governor", "Gobernación y vicegobernación");
    let mut ticket = office(id, title, 3, 1, 1, true);
    for (at, option) in ticket.options.iter_mut().enumerate() {
        if option.kind == OptionKind::Listed {
            option.names.push(candidate(at * 3 + 1, false).names.remove(0));
        }
    }
    ticket
}

/// A straight-party question.
pub fn straight_party(id: &str) -> Contest {
    let options = PARTIES[..2].iter().map(|(english, spanish)| answer(english, spanish)).collect();
    let title = name("Straight party", "Partido completo");
    contest(id, title, ContestKind::StraightParty, Rule::Choose { max: 1 }, options)
}

/// An election of one style with these items.
pub fn election(items: Vec<Item>) -> Election {
    let style = Style {
        code: "12".into(),
        units: vec!["unit-12".into()],
        precinct: text("Precinct 3, Saltmarsh", "Precinto 3, Saltmarsh"),
        party: None,
        items,
    };
    Election {
        name: text("General Election", "Elección general"),
        jurisdiction: text("Alder County", "Condado de Alder"),
        date: "2027-05-04".into(),
        is_test: true,
        fingerprint: [0x0e, 0x4b, 0xff, 0x00, 0x91, 2, 3, 4],
        languages: both(),
        styles: vec![style],
        refused: vec![],
    }
}

/// Every kind of contest, 18 in all, with headers.
pub fn mixed() -> Election {
    let header = |english, spanish| {
        Item::Header(Header { name: name(english, spanish), content: Some(text(english, spanish)) })
    };
    let mut items = vec![
        Item::Contest(straight_party("sp")),
        header("State", "Estado"),
        Item::Contest(ticket("governor")),
    ];
    let senate = name("State senate, district 7", "Senado estatal, distrito 7");
    items.push(Item::Contest(office("senate", senate, 3, 1, 1, true)));
    items.push(header("County", "Condado"));
    let offices = [
        ("clerk", "County clerk", "Secretaría del condado", 2, 1, 1),
        ("commission", "County commission", "Comisión del condado", 7, 3, 3),
        ("sheriff", "Sheriff", "Alguacil", 3, 1, 1),
        ("auditor", "Auditor", "Auditoría", 2, 1, 1),
        ("coroner", "Coroner", "Médico forense", 1, 1, 1),
        ("surveyor", "Surveyor", "Agrimensura", 2, 1, 1),
    ];
    for (id, english, spanish, people, max, lines) in offices {
        items.push(Item::Contest(office(id, name(english, spanish), people, max, lines, true)));
    }
    items.push(header("Cities, schools and courts", "Ciudades, escuelas y tribunales"));
    items.push(Item::Contest(ranked("mayor", 5, 3)));
    for (id, english, spanish, people, max) in [
        ("board", "School board", "Junta escolar", 22, 1),
        ("water", "Water board", "Junta del agua", 4, 2),
    ] {
        items.push(Item::Contest(office(
            id,
            name(english, spanish),
            people,
            max,
            max.into(),
            false,
        )));
    }
    items.push(Item::Contest(retention("judge-1", "Augusta Farrow")));
    items.push(Item::Contest(retention("judge-2", "Leon Petrov")));
    items.push(header("Measures", "Medidas"));
    items.push(Item::Contest(measure("measure-4", 3)));
    items.push(Item::Contest(measure("measure-5", 0)));
    for (id, english, spanish) in
        [("park", "Park board", "Junta de parques"), ("port", "Port board", "Junta del puerto")]
    {
        items.push(Item::Contest(office(id, name(english, spanish), 3, 1, 1, false)));
    }
    election(items)
}

/// Whether a judge stays.
pub fn retention(id: &str, who: &str) -> Contest {
    let title = name(
        &format!("Shall {who} stay in office as judge of the county court?"),
        &format!("¿Debe {who} seguir en el cargo de juez del condado?"),
    );
    let options = vec![answer("Yes", "Sí"), answer("No", "No")];
    contest(id, title, ContestKind::Retention, Rule::Choose { max: 1 }, options)
}

/// Sixty short contests with 204 ovals in all.
pub fn sixty() -> Election {
    let contest = |at: usize| {
        let title = format!("Seat {} of the county council", at + 1);
        let people = if at % 5 < 2 { 4 } else { 3 };
        Item::Contest(office(&format!("seat-{at}"), person(&title), people, 1, 0, false))
    };
    election((0..60).map(contest).collect())
}
