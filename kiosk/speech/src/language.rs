//! Which of the service's voices speaks a language.

/// Voices by language, the best first, where the plain tag wouldn't find the right one.
///
/// The left side is a lower-case BCP 47 tag or its beginning; the right side are language tags as
/// espeak-ng 1.51 names them. American English and Latin American Spanish because the station's
/// voters live in the United States; Mandarin and Cantonese because espeak-ng has no "zh".
const PREFERRED: &[(&str, &[&str])] = &[
    ("en", &["en-us", "en", "en-gb"]),
    ("es", &["es-419", "es-us", "es-mx", "es"]),
    ("zh-hk", &["yue", "cmn"]),
    ("zh-mo", &["yue", "cmn"]),
    ("zh-hant-hk", &["yue", "cmn"]),
    ("zh", &["cmn", "zh"]),
    ("yue", &["yue"]),
    ("fil", &["fil", "tl"]),
    ("tl", &["tl", "fil"]),
    ("hy", &["hy", "hyw"]),
];

/// The index of the voice that speaks `wanted` best, or none: a voice of another language would
/// say noise, so the caller must tell the voter instead.
///
/// `voices` are the language tags of the service's voices, in its order; case doesn't matter.
pub fn choose(voices: &[String], wanted: &str) -> Option<usize> {
    let wanted = wanted.to_ascii_lowercase().replace('_', "-");
    let find = |tag: &str| voices.iter().position(|v| v.eq_ignore_ascii_case(tag));
    let mut tag = wanted.as_str();
    loop {
        let preferred = PREFERRED.iter().find(|(left, _)| *left == tag);
        let found = preferred
            .and_then(|(_, tags)| tags.iter().find_map(|t| find(t)))
            .or_else(|| if tag.is_empty() { None } else { find(tag) });
        if found.is_some() {
            return found;
        }
        let Some((shorter, _)) = tag.rsplit_once('-') else { break };
        tag = shorter;
    }
    voices.iter().position(|v| {
        !tag.is_empty()
            && v.split('-').next().is_some_and(|primary| primary.eq_ignore_ascii_case(tag))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn chosen<'a>(voices: &[&'a str], wanted: &str) -> Option<&'a str> {
        let owned: Vec<String> = voices.iter().map(|&v| v.to_owned()).collect();
        choose(&owned, wanted).map(|at| voices[at])
    }

    #[test]
    fn the_voice_fits_the_language() {
        let espeak = [
            "af",
            "en-029",
            "en-gb",
            "en-us",
            "es",
            "es-419",
            "cmn",
            "yue",
            "vi-VN-x-south",
            "vi",
            "ko",
            "pt-BR",
            "hy",
            "hyw",
        ];
        for (wanted, voice) in [
            ("en", Some("en-us")),
            ("en-US", Some("en-us")),
            ("en-GB", Some("en-gb")),
            ("en-AU", Some("en-us")),
            ("es", Some("es-419")),
            ("es-US", Some("es-419")),
            ("es_MX", Some("es-419")),
            ("zh", Some("cmn")),
            ("zh-Hans-CN", Some("cmn")),
            ("zh-Hant", Some("cmn")),
            ("zh-HK", Some("yue")),
            ("yue-Hant", Some("yue")),
            ("vi", Some("vi")),
            ("ko-KR", Some("ko")),
            ("pt", Some("pt-BR")),
            ("km", None),
            ("fil", None),
            ("so", None),
            ("", None),
            ("-", None),
        ] {
            assert_eq!(chosen(&espeak, wanted), voice, "{wanted}");
        }
        assert_eq!(chosen(&["es", "fr"], "es-US"), Some("es"));
        assert_eq!(chosen(&["es-es"], "es"), Some("es-es"));
        assert_eq!(chosen(&[], "en"), None);
    }
}
