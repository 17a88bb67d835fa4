//! The observer's page: a log as one HTML file that any browser shows and prints. No script, no
//! picture, nothing from a network; everything that comes from the log is escaped.

use std::fmt::Write as _;

use crate::{Content, Digest, Event, EventType, Kept, Report, Severity};

/// The looks: system fonts, large, dark on white; rows, digests and headings aren't torn from what
/// they belong to at a page's end. On a narrow screen times stand on two lines, so that the sentences
/// beside them have room; only digests are broken within. Looked at in Chromium 156 at 1280 and 400
/// pixels and as printed on letter paper.
const STYLE: &str = "
body { font: 1.2rem/1.5 system-ui, sans-serif; color: #111; background: #fff; max-width: 60rem; margin: 2rem auto; padding: 0 1rem; }
h1 { font-size: 2rem; line-height: 1.2; } h2 { font-size: 1.5rem; line-height: 1.3; margin-top: 2rem; } h3 { font-size: 1.2rem; }
h1, h2, h3 { break-after: avoid; } pre, .result { break-inside: avoid; } p { orphans: 3; widows: 3; }
table { border-collapse: collapse; width: 100%; } th, td { text-align: left; vertical-align: top; padding: .35rem .6rem; border-bottom: 1px solid #767676; overflow-wrap: anywhere; }
td.number, th.number { text-align: right; white-space: nowrap; } td.time { white-space: nowrap; }
.result { border: 4px solid #111; padding: 1rem; font-size: 1.4rem; }
tr.look td { font-weight: bold; } pre { font: 1.2rem/1.6 ui-monospace, monospace; white-space: pre-wrap; }
thead { display: table-header-group; } tr { break-inside: avoid; } thead th { overflow-wrap: normal; }
@media (max-width: 40rem) { body { margin: 1rem auto; padding: 0 .6rem; } th, td { padding: .35rem .3rem; } td.time { white-space: normal; width: 8rem; } ul { padding-left: 1.2rem; } }
@media print { body { font-size: 12pt; margin: 0; max-width: none; } }
";

/// The page of a log that was verified.
pub fn page(report: &Report) -> String {
    let mut out = String::new();
    let station = report.station.as_ref().map_or("unknown", |station| station.as_str());
    let title = format!("Event log of station {station}");
    let title = escaped(&title);
    push(
        &mut out,
        format_args!(
            "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width\">\n<title>{title}</title>\n<style>{STYLE}</style>\n</head>\n<body>\n<h1>{title}</h1>\n"
        ),
    );
    out.push_str("<p>Evenhand is not certified voting equipment. Local election law and election officials decide what may be used, and what this page is worth.</p>\n");
    result(&mut out, report);
    totals(&mut out, report);
    digests(&mut out, report);
    out.push_str("<h2>What the times and the order tell</h2>\n<p>While polls are open, and for all that happens in a visit, times are whole hours, so that they can't put voters in order. The entries stand in order. Who noted who came can learn from them that somebody's visit was stopped, that a ballot was given up for a new one, or that a worker helped; nothing of how anybody voted is here.</p>\n");
    entries(&mut out, report);
    out.push_str("</body>\n</html>\n");
    out
}

fn result(out: &mut String, report: &Report) {
    out.push_str("<h2>Verification</h2>\n");
    let notes = report.note_sentences();
    let says = match (report.faults.is_empty(), report.doubts.is_empty(), notes.is_empty()) {
        (false, _, _) => "This log is not whole. Tell the election office.",
        (true, false, _) => {
            "The log is whole, and some of what it says doesn't agree. Ask the election office."
        }
        (true, true, false) => {
            "Nothing was found: no entry was removed, changed or put elsewhere, as far as the notes below allow."
        }
        (true, true, true) => "Nothing was found: no entry was removed, changed or put elsewhere.",
    };
    push(out, format_args!("<p class=\"result\">{}</p>\n", escaped(says)));
    list(out, "What was found", &report.finding_sentences());
    list(out, "What this check can't say", &notes);
}

/// Sentences under a heading; nothing where there are none.
fn list(out: &mut String, heading: &str, sentences: &[String]) {
    if sentences.is_empty() {
        return;
    }
    push(out, format_args!("<h3>{}</h3>\n<ul>\n", escaped(heading)));
    for sentence in sentences {
        push(out, format_args!("<li>{}</li>\n", escaped(&capital(sentence))));
    }
    out.push_str("</ul>\n");
}

fn totals(out: &mut String, report: &Report) {
    out.push_str("<h2>Totals of the whole log</h2>\n<p>Counted from the entries below. Sheets aren't counted one by one; the counts at opening and closing have them.</p>\n<table>\n");
    for (what, count) in
        report.tally.named().iter().filter(|(what, _)| !what.starts_with("sheets "))
    {
        row(out, what, *count as usize);
    }
    for event_type in EventType::ALL {
        let is_of =
            |line: &&Kept| event_of(line).is_some_and(|e| e.kind().event_type == event_type);
        let count = report.lines.iter().filter(is_of).count();
        if event_type != EventType::BallotActivation && event_type != EventType::Log {
            row(out, &format!("entries of the type {}", event_type.id()), count);
        }
    }
    out.push_str("</table>\n");
}

fn row(out: &mut String, what: &str, count: usize) {
    let what = escaped(&capital(what));
    push(
        out,
        format_args!("<tr><th scope=\"row\">{what}</th><td class=\"number\">{count}</td></tr>\n"),
    );
}

fn digests(out: &mut String, report: &Report) {
    let mut one = |what: &str, digest: Option<Digest>| {
        if let Some(digest) = digest {
            let (what, digest) = (escaped(what), escaped(&digest.groups()));
            push(out, format_args!("<h2>{what}</h2>\n<pre>{digest}</pre>\n"));
        }
    };
    one("Head digest (compare it with the published one)", report.head_digest());
    one("The station's key, as the log names it", report.key.map(|key| Digest(key.0)));
    one("Head digest of the log before this one", report.previous);
}

fn entries(out: &mut String, report: &Report) {
    out.push_str("<h2>Entries</h2>\n");
    if report.lines.is_empty() {
        out.push_str("<p>No entry could be read.</p>\n");
        return;
    }
    out.push_str("<table>\n<thead><tr><th class=\"number\" scope=\"col\">No.</th><th scope=\"col\">Local time</th><th scope=\"col\">What happened</th></tr></thead>\n<tbody>\n");
    for line in &report.lines {
        let is_grave = event_of(line).is_some_and(|e| e.severity() != Severity::Information);
        let class = if is_grave { " class=\"look\"" } else { "" };
        let (time, says) = (escaped(&line.at.plain()), escaped(&line.content.sentence()));
        push(
            out,
            format_args!(
                "<tr{class}><td class=\"number\">{}</td><td class=\"time\">{time}</td><td>{says}</td></tr>\n",
                line.number
            ),
        );
    }
    out.push_str("</tbody>\n</table>\n");
}

fn event_of(line: &Kept) -> Option<&Event> {
    match &line.content {
        Content::Event(event) => Some(event),
        Content::Head | Content::Checkpoint => None,
    }
}

fn push(out: &mut String, what: std::fmt::Arguments<'_>) {
    // Writing to a String never fails.
    let _ = out.write_fmt(what);
}

/// With its first letter as a capital.
fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |first| first.to_uppercase().chain(letters).collect())
}

/// Text as HTML shows it (HTML Living Standard, 13.1.4: character references).
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for sign in text.chars() {
        match sign {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            other => out.push(other),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_stays_markup() {
        assert_eq!(escaped("<a b=\"c\" d='e'>&"), "&lt;a b=&quot;c&quot; d=&#39;e&#39;&gt;&amp;");
    }
}
