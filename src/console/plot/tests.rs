use super::*;

fn text(plot: &Plot, size: (usize, usize), lines: Lines) -> String {
    let rows = plot.draw(size, lines);
    let text = |row: &Vec<Piece>| -> String {
        let row: String = row.iter().map(|(text, _)| text.as_str()).collect();
        row.trim_end().to_owned()
    };
    rows.iter().map(text).collect::<Vec<_>>().join("\n")
}

fn falling() -> Plot {
    Plot {
        heading: "o read  . healthy  a seal".to_owned(),
        unit: "bar".to_owned(),
        time_unit: "min".to_owned(),
        times: None,
        values: None,
        bands: vec![
            Band {
                mark: 'h',
                points: vec![(0.0, 180.0, 186.0), (30.0, 174.0, 184.0)],
                filled: true,
            },
            Band {
                mark: 'a',
                points: vec![(0.0, 180.0, 186.0), (30.0, 80.0, 120.0)],
                filled: false,
            },
        ],
        lines: vec![Line {
            mark: 'o',
            role: Role::Strong,
            points: vec![(5.0, 172.0), (15.0, 150.0), (25.0, 122.0)],
            joined: false,
        }],
        marked: Some(Marked {
            value: 69.0,
            label: "empty 69".to_owned(),
        }),
    }
}

#[test]
fn a_plot_in_plain_characters() {
    let expected = [
        "bar o read  . healthy  a seal",
        "   |aaaa....................................",
        "180+aaaaaaaoaaa.............................",
        "160+     aaaaa aaaaaaa",
        "   |          aaaa    aaoaaaa",
        "140+              aaaaa      aaaaaaa",
        "   |                   aaaa         aoaaaaa",
        "120+                       aaaaa           a",
        "100+                            aaaa",
        "   |                                aaaaa",
        " 80+                                     aaa",
        "   |- - - - - - - - - - - - - - - - empty 69",
        "   ++------+-----+------+-----+------+------",
        "    0      5     10     15    20     25  min",
    ];
    assert_eq!(
        text(&falling(), (44, 14), Lines::Ascii),
        expected.join("\n")
    );
}

#[test]
fn the_same_in_box_drawing_and_dots() {
    let expected = [
        "bar o read  . healthy  a seal",
        "   │⢍⡒a⠤⢄⣀░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░░",
        "180┤░⠈a⠒⠤⣀⠉o⠒⠤⠤⣀⡀░░░░░░░░░░░░░░░░░░░░░░░░░░░",
        "160┤      ⠉⠒⠤⣀  ⠈⠉a⠢⠤⢄⣀",
        "   │          ⠉⠑⠢⢄a    ⠉o⠒⠤⠤⣀⡀",
        "140┤              a⠑⠢⠤⣀      ⠈a⠒⠢⠤⢄⣀",
        "   │                   ⠉⠒⠤⣀         ⠉o⠒⠢⠤⣀a",
        "120┤                       ⠉⠒⠢a⡀          a⠉",
        "100┤                           ⠈⠑⠢⢄⡀",
        "   │                               ⠈⠉⠒⠤⣀",
        " 80┤                                    ⠉⠒a⢄",
        "   │╌ ╌ ╌ ╌ ╌ ╌ ╌ ╌ ╌ ╌ ╌ ╌ ╌ ╌ ╌ ╌ empty 69",
        "   └┴──────┴─────┴──────┴─────┴──────┴──────",
        "    0      5     10     15    20     25  min",
    ];
    assert_eq!(text(&falling(), (44, 14), Lines::Box), expected.join("\n"));
}

#[test]
fn the_smallest_plot_has_axes() {
    let expected = [
        "bar o read  . heal..",
        "   |aaaoaaaaoaaaaa..",
        "100+- - - - empty 69",
        "   ++---------+-----",
        "    0         20 min",
    ];
    assert_eq!(text(&falling(), (20, 5), Lines::Ascii), expected.join("\n"));
}

#[test]
fn a_marked_value_beyond_the_scale_stands_at_its_edge() {
    let mut plot = falling();
    plot.values = Some((110.0, 190.0));
    let drawn = text(&plot, (44, 10), Lines::Ascii);
    let last = drawn.lines().nth(7).unwrap_or_default();
    assert!(last.ends_with("empty 69 v below"), "{drawn}");
    plot.values = Some((0.0, 50.0));
    let drawn = text(&plot, (44, 10), Lines::Ascii);
    assert!(
        drawn
            .lines()
            .nth(1)
            .unwrap_or_default()
            .ends_with("empty 69 ^ above"),
        "{drawn}"
    );
}

#[test]
fn roles_tell_what_was_read_from_what_is_predicted() {
    let rows = falling().draw((44, 14), Lines::Ascii);
    let pieces: Vec<&Piece> = rows[1..12].iter().flatten().collect();
    let of = |role: Role| -> String {
        let texts = pieces.iter().filter(|piece| piece.1 == role);
        texts.map(|piece| piece.0.as_str()).collect()
    };
    assert_eq!(of(Role::Strong), "ooo");
    assert!(of(Role::Predicted).contains('a') && of(Role::Predicted).contains('.'));
    assert!(of(Role::Caution).contains("empty 69"));
}

#[test]
fn nothing_panics_at_any_size_with_anything() {
    let odd = [f64::NAN, f64::INFINITY, -1e300, 1e300, 0.0, -5.0, 1e-300];
    let points: Vec<(f64, f64)> = odd.iter().flat_map(|a| odd.map(|b| (*a, b))).collect();
    let mut wild = falling();
    wild.lines.push(Line {
        mark: 'w',
        role: Role::Strong,
        points,
        joined: true,
    });
    for plot in [falling(), Plot::default(), wild] {
        for lines in Lines::ALL {
            for columns in (0..40).chain([80, 200]) {
                for rows in (0..12).chain([40]) {
                    let drawn = plot.draw((columns, rows), lines);
                    assert!(drawn.len() <= rows);
                    for row in drawn {
                        let wide: usize = row.iter().map(|(text, _)| width(text)).sum();
                        assert!(wide <= columns, "{wide} of {columns}");
                    }
                }
            }
        }
    }
}

#[test]
fn ten_thousand_points_are_one_curve() {
    let mut plot = falling();
    plot.lines[0].points = (0..10_000)
        .map(|n| (f64::from(n) / 333.0, 186.0 - f64::from(n) / 100.0))
        .collect();
    let drawn = plot.draw((200, 60), Lines::Box);
    assert_eq!(drawn.len(), 60);
}
