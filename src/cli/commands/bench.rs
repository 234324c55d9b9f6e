//! `bench AIRCRAFT`: the plant to play with, as a screen or line by line; and its files.

use std::cell::RefCell;
use std::io::Write as _;
use std::path::Path;
use std::sync::Arc;
use std::time::Instant;

use super::parking::refused;
use super::rank::complain_of;
use super::work::{quiet, with_lines};
use crate::authoring::desk::Desk;
use crate::authoring::document::{self, OnBench};
use crate::base::name::is_name;
use crate::cli::args::{Arguments, BenchArguments};
use crate::cli::exit;
use crate::cli::surroundings::Surroundings;
use crate::console::bench::app::{self, Files};
use crate::console::bench::plain;
use crate::console::bench::state::State;
use crate::plant::course::Course;
use crate::report::bench_file::bench_file;
use crate::source::{problem, render};

/// Opens the bench.
pub fn run(
    bench: &BenchArguments,
    arguments: &Arguments,
    surroundings: &Surroundings,
) -> anyhow::Result<u8> {
    let on_bench = match begin(bench) {
        Ok(on_bench) => on_bench,
        Err(code) => return Ok(code),
    };
    let mut state = match State::new(&on_bench.aircraft, &on_bench.course) {
        Ok(state) => state,
        Err(error) => return Ok(refused(&error)),
    };
    state.file.clone_from(&bench.from);
    let settings = &surroundings.settings;
    let line_by_line = arguments.plain || settings.plain == Some(true);
    // Saving must name the aircraft that was loaded last.
    let name = RefCell::new(on_bench.name);
    let mut files = Files {
        save: &mut |file, aircraft, course| {
            save(
                file,
                &bench_file(&anywhere(&name.borrow()), aircraft, course),
            )
        },
        load: &mut |file| {
            let loaded = read(file).map_err(|mut desk| problems(&mut desk))?;
            *name.borrow_mut() = loaded.name;
            Ok((loaded.aircraft, loaded.course))
        },
    };
    if surroundings.full_screen && !line_by_line {
        state.preferences = settings.preferences(surroundings.colour);
        let begin = Instant::now();
        app::run(&mut state, &|| begin.elapsed(), &mut files)?;
    } else {
        quiet(with_lines(|lines| {
            plain::run(&mut state, lines, &mut files)
        }))?;
    }
    Ok(exit::FINE)
}

/// The course that was named, or an aircraft as it was found.
fn begin(bench: &BenchArguments) -> Result<OnBench, u8> {
    if let Some(file) = &bench.from {
        return read(file).map_err(|mut desk| complain_of(&mut desk));
    }
    let mut desk = Desk::default();
    match document::aircraft(&mut desk, &bench.aircraft) {
        Some(aircraft) => Ok(OnBench {
            name: bench.aircraft.clone(),
            aircraft: Arc::new(aircraft),
            course: Course::default(),
        }),
        None => Err(complain_of(&mut desk)),
    }
}

/// Reads a bench file, or gives the desk with what is wrong in it.
pub fn read(file: &str) -> Result<OnBench, Desk> {
    let mut desk = Desk::default();
    document::bench(&mut desk, file).ok_or(desk)
}

/// The problems of a file, one line each.
fn problems(desk: &mut Desk) -> Vec<String> {
    problem::sort(&mut desk.problems);
    let lines = desk.problems.iter();
    lines
        .map(|problem| render::line(problem, &desk.files))
        .collect()
}

/// An id as it is; a path so that it is found from any folder.
fn anywhere(name: &str) -> String {
    if is_name(name) {
        return name.to_owned();
    }
    let path = std::fs::canonicalize(name);
    path.map_or_else(|_| name.to_owned(), |path| path.display().to_string())
}

/// Writes a file whole or not at all. What is there and is no bench file stays as it is.
fn save(file: &str, text: &str) -> Result<(), String> {
    let path = Path::new(file);
    if path.exists() && read(file).is_err() {
        return Err(format!(
            "{file} is there and is no bench file that can be read; choose another name"
        ));
    }
    let reason = |error: std::io::Error| format!("{file} cannot be written: {error}");
    let beside = path.with_extension(format!("{}.part", std::process::id()));
    let written = std::fs::File::create(&beside)
        .and_then(|mut part| {
            part.write_all(text.as_bytes())
                .and_then(|()| part.sync_all())
        })
        .and_then(|()| std::fs::rename(&beside, path));
    written.map_err(|error| {
        // A half that is left behind would only puzzle whoever finds it.
        let _ = std::fs::remove_file(&beside);
        reason(error)
    })
}
