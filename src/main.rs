//! The program: parse, run, print, exit.
use stillwheel::authoring::{desk::Desk, document};
fn main() {
    for name in std::env::args().skip(1) {
        let mut desk = Desk::default();
        let d = document::any(&mut desk, &name, None);
        let mut problems = std::mem::take(&mut desk.problems);
        stillwheel::source::problem::sort(&mut problems);
        for p in &problems {
            println!("{}\n", stillwheel::source::render::snippet(p, &desk.files));
        }
        println!(
            "{} {}",
            stillwheel::source::render::count_line(&problems),
            d.is_some()
        );
        if let Some(document::Document::Tree(Some(m))) = d {
            let m = std::sync::Arc::new(*m);
            let inf = stillwheel::diagnosis::inference::Inference::new(m.clone());
            println!("states {:?} pp {:?}", inf.states(), m.priors.per_parking);
            let e = stillwheel::diagnosis::evidence::Evidence::report_only(&m);
            let b = inf.believe(&e).unwrap();
            for r in stillwheel::diagnosis::ranking::ranking(
                &m,
                &b,
                stillwheel::diagnosis::cause::Part::Cause,
            ) {
                println!("{:.4} {}", r.probability, m.causes[r.event].title);
            }
            println!("unlisted {}", b.unlisted);
            let s = stillwheel::diagnosis::situation::Situation::as_found(&m);
            for p in stillwheel::diagnosis::next_check::proposals(&m, &b, &e, &s) {
                println!(
                    "{} {:.4} {} {:.4}",
                    m.checks[p.check].id, p.gain, p.cost.minutes, p.per_minute
                );
            }
        }
    }
}
