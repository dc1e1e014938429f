//! What can be asked for on the command line, and the help that teaches it.

use clap::{Args, Parser, Subcommand, ValueEnum, ValueHint};
use std::path::PathBuf;

const STATUSES: &str = "\
Exit status:
  0  fine
  1  a finding stops the job; what could be worked out is written all the same
  2  bad input: a site or a --causes file that is missing, broken or newer than this program, an option
     that cannot be, or an output that cannot be written; one line on stderr says which, where and why";

const EXAMPLES: &str = "\
Examples:
  underbrick check sample-sites/curved-to-a-drive
  underbrick section sample-sites/curved-to-a-drive --at \"12 ft 6 in\" -o cross-section.svg
  underbrick section sample-sites/curved-to-a-drive --long -o long-section.svg
  underbrick plan sample-sites/curved-to-a-drive -o plan.svg
  underbrick results sample-sites/metric
  underbrick results sample-sites/metric --json
  underbrick order sample-sites/curved-to-a-drive --why
  underbrick stakes sample-sites/curved-to-a-drive --spacing \"5 ft\"
  underbrick sheets sample-sites/curved-to-a-drive --out sheets
  underbrick pack sample-sites/curved-to-a-drive -o curved.zip
  underbrick unpack curved.zip --into sites
  underbrick causes > causes.ron
  underbrick prices > prices.ron
  underbrick letterhead > letterhead.ron

A site is a folder with a site.ron in it, or a site.ron file. It is only read, never written; 'unpack' makes a new one.";

/// The whole command line.
#[derive(Debug, Parser)]
#[command(
    name = "underbrick",
    version,
    about = "From test pit to section: what a sunken brick walk needs under it",
    long_about = "From test pit to section: what a sunken brick walk needs under it.\n\nReads a site as it was measured and gives its \
                  findings, its drawings and its figures, the same as in the app.",
    after_help = "Examples:\n  underbrick check SITE\n  underbrick section SITE --at \"12 ft 6 in\" -o section.svg\n  underbrick results SITE --json\n\nMore with --help, and with 'underbrick help section' and its like.",
    after_long_help = format!("{EXAMPLES}\n\n{STATUSES}"),
    arg_required_else_help = true,
    subcommand_required = true,
)]
pub struct Arguments {
    /// What is to be done.
    #[command(subcommand)]
    pub command: Command,
}

/// What is to be done.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Says what someone should look at: one finding a line on stderr
    #[command(
        long_about = "Says what someone should look at.\n\nWrites one line for each finding to stderr: how much it matters (stop, warning, \
                      note, right), the name of the field, what was found, what can be done, and in brackets where the rule comes \
                      from. A reading that cannot be understood is a finding too. One line on stdout sums up.",
        after_long_help = format!(
            "Example:\n  underbrick check sample-sites/half-measured\n  underbrick check site.ron 2> findings.txt || echo \"not yet\"\n\n{STATUSES}"
        )
    )]
    Check(SiteAsked),
    /// Draws the cross-section, or with --long the long section, as SVG
    #[command(
        long_about = "Draws the cross-section at one station, or with --long the walk lengthwise, as SVG.\n\nWhat was not measured is drawn as \
                      missing. Findings other than checks that were kept go to stderr.",
        after_long_help = format!(
            "Examples:\n  underbrick section sample-sites/curved-to-a-drive --at \"12 ft 6 in\" > cross-section.svg\n  \
             underbrick section sample-sites/metric --at 3.5 -o cross-section.svg\n  \
             underbrick section sample-sites/metric --long --dim --width 2000 --height 600 -o long-section.svg\n\n{STATUSES}"
        )
    )]
    Section(SectionAsked),
    /// Draws every brick from above, as SVG
    #[command(
        long_about = "Draws the walk from above with every brick, as SVG: the whole of it, or what stands about one station at a scale.\n\nCuts                       carry the letter of the cut list. Findings other than checks that were kept go to stderr.",
        after_long_help = format!(
            "Examples:\n  underbrick plan sample-sites/curved-to-a-drive -o plan.svg\n  \
             underbrick plan sample-sites/curved-to-a-drive --at \"30 ft\" --scale 10 -o curve.svg\n\n{STATUSES}"
        )
    )]
    Plan(PlanAsked),
    /// Gives every figure with its unit: text for people, or JSON for machines
    #[command(
        long_about = "Gives every figure of the site: line, section, lifts from the bottom, edges, quantities, findings.\n\nText by default; \
                      with --json a list of figures with stable keys, each with value, unit and the text that the trade would write, \
                      and tables of pits, stations and lifts. What is not known is null, never zero. An amount that is the least it \
                      can be says so. Findings other than checks that were kept go to stderr too.",
        after_long_help = format!(
            "Examples:\n  underbrick results sample-sites/short-straight-sunk-on-sand\n  \
             underbrick results sample-sites/metric --json > results.json\n  \
             underbrick results SITE --json | jq '.figures[] | select(.key == \"base_loose\")'\n\n{STATUSES}"
        )
    )]
    Results(ResultsAsked),
    /// Gives what is bought, how long it takes and what it costs, three ways of rebuilding
    #[command(
        long_about = "Gives the order of the site: what is bought, taken away and hired, hours by stage, days, and the price, for each of three \
                      ways of rebuilding, from the same readings.\n\nText by default; --why says under each line how it comes about, --csv \
                      gives the way that is ordered for a spreadsheet, --json all ways with every decimal number as a text, --message \
                      what is sent to each supplier. A line whose need is not known, or has no price, says so; a sum with such a line \
                      is \"at least\".",
        after_long_help = format!(
            "Examples:\n  underbrick order sample-sites/curved-to-a-drive --why\n  \
             underbrick order sample-sites/curved-to-a-drive --way new-brick --csv > order.csv\n  \
             underbrick order SITE --json | jq '.ways[].price.total'\n\n{STATUSES}"
        )
    )]
    Order(OrderAsked),
    /// Gives what string, tape and rod must read at every stake
    #[command(
        long_about = "Gives the stake table of the site: at the chosen spacing, both ends, every end of a leg, change of fall, riser and pit, \
                      the drop from the working string to brick, setting bed, every lift and the bottom of the dig, what is dug or filled \
                      from the present surface, where form and dig end at both edges, and the rod readings of the last set-up; then the arcs \
                      of the edges by chord and offset and by a tape from the centre, the screed board and the gauge rod.\n\nText by default; \
                      --csv gives one record for each surface at each stake, in decimal feet or metres with its place in plan, --json all \
                      of it. A drop with a question mark stands where the present surface was not read on both sides.",
        after_long_help = format!(
            "Examples:\n  underbrick stakes sample-sites/curved-to-a-drive --spacing \"5 ft\"\n  \
             underbrick stakes sample-sites/steep-with-steps --csv > set-out.csv\n  \
             underbrick stakes SITE --json | jq '.curves[] | {{leg, side, offsets}}'\n\n{STATUSES}"
        )
    )]
    Stakes(StakesAsked),
    /// Gives what can be agreed on now, clause by clause, and what has changed since it was agreed
    #[command(
        long_about = "Gives the clauses of an agreement on the design as it is now, in plain words, each with its heading. Where something was \
                      agreed before, what has changed since stands below it, clause by clause; --changes gives that alone, and --message \
                      what is sent to the owner.\n\nWhat is not measured is said to be so. Signatures are taken in the app.",
        after_long_help = format!(
            "Examples:\n  underbrick agreement sample-sites/curved-to-a-drive\n  \
             underbrick agreement SITE --letterhead letterhead.ron --message\n  \
             underbrick agreement SITE --changes\n\n{STATUSES}"
        )
    )]
    Agreement(AgreementAsked),
    /// Makes everything that is handed over: PDFs for owner, crew and office, CSV, SVG, texts
    #[command(
        long_about = "Makes everything that is handed over, in one folder: owner sheet, crew sheet, order list and hand-over record as PDF, \
                      set-out table, order and readings as CSV, messages as text, drawings as SVG.\n\nEach file is written whole or not at \
                      all, and the same site gives the same bytes on the same date. Crew sheet and drawings are in the language that the site says, \
                      or in that of --lang. Print at 100 %: scale bars measure true.",
        after_long_help = format!(
            "Examples:\n  underbrick sheets sample-sites/curved-to-a-drive --out sheets\n  \
             underbrick sheets SITE --out sheets --lang es --paper a4 --date 2026-05-04\n\n{STATUSES}"
        )
    )]
    Sheets(SheetsAsked),
    /// Packs a site into one file
    #[command(
        long_about = "Packs a site into one zip archive: site.ron and its pictures, without its history. It can be mailed, and is taken in by the \
                      app's list of sites or by 'unpack'. A file that is there is not written over.",
        after_long_help = format!(
            "Examples:\n  underbrick pack sample-sites/curved-to-a-drive -o curved.zip\n  underbrick pack SITE\n\n{STATUSES}"
        )
    )]
    Pack(PackAsked),
    /// Unpacks such a file into a new site folder
    #[command(
        long_about = "Unpacks a packed site into a new folder of its own, and prints the folder. What is there is not touched, also where it is \
                      the same site. A file that holds anything but a site is refused as a whole.",
        after_long_help = format!(
            "Example:\n  underbrick unpack curved.zip --into sites\n\n{STATUSES}"
        )
    )]
    Unpack(UnpackAsked),
    /// Prints the built-in rules for causes, for a table of your own to start from
    #[command(
        long_about = "Prints the built-in rules that say why a walk failed.\n\nA copy named causes.ron beside the site folders, or named with \
                      --causes, is laid over them: a rule of the same id wins, others are added, and those listed under 'silenced' are \
                      left out. Where it cannot be used, stderr says file, line, column and why, and the built-in rules are used.",
        after_long_help = format!(
            "Examples:\n  underbrick causes > causes.ron\n  underbrick results SITE --causes causes.ron\n\n{STATUSES}"
        )
    )]
    Causes,
    /// Prints the invented price list, for one of your own to start from
    #[command(
        long_about = "Prints the built-in price list. Its figures are invented.\n\nA copy named prices.ron beside the site folders, or named with \
                      --prices, takes its place. Where it cannot be used, stderr says file, line, column and why, and the built-in one is \
                      used.",
        after_long_help = format!(
            "Examples:\n  underbrick prices > prices.ron\n  underbrick order SITE --prices prices.ron\n\n{STATUSES}"
        )
    )]
    Prices,
    /// Prints an invented letterhead, for your own to start from
    #[command(
        long_about = "Prints the built-in letterhead. The firm in it is invented.\n\nA copy named letterhead.ron beside the site folders, or \
                      named with --letterhead, says who hands sheets over: name, address, telephone, licence, insurance, and terms of your \
                      own, which become a clause of the agreement. Where it cannot be used, stderr says file, line, column and why.",
        after_long_help = format!(
            "Examples:\n  underbrick letterhead > letterhead.ron\n\n{STATUSES}"
        )
    )]
    Letterhead,
}

/// What is packed, and where to.
#[derive(Debug, Args)]
pub struct PackAsked {
    /// A site folder, or its site.ron file
    #[arg(value_name = "SITE", value_hint = ValueHint::AnyPath)]
    pub site: PathBuf,
    /// The new file [default: named for the address, here]
    #[arg(short, long, value_name = "FILE", value_hint = ValueHint::FilePath)]
    pub output: Option<PathBuf>,
}

/// What is unpacked, and where to.
#[derive(Debug, Args)]
pub struct UnpackAsked {
    /// A packed site
    #[arg(value_name = "FILE", value_hint = ValueHint::FilePath)]
    pub file: PathBuf,
    /// The folder of sites that it joins; it need not be there yet
    #[arg(long, value_name = "SITES", value_hint = ValueHint::DirPath)]
    pub into: PathBuf,
}

/// Which site.
#[derive(Debug, Args)]
pub struct SiteAsked {
    /// A site folder, or its site.ron file
    #[arg(value_name = "SITE", value_hint = ValueHint::AnyPath)]
    pub site: PathBuf,
    /// Your own rules for causes, over the built-in ones [default: causes.ron beside the site folder, where there is one]
    #[arg(long, value_name = "FILE", value_hint = ValueHint::FilePath)]
    pub causes: Option<PathBuf>,
    /// Your own price list, in the place of the invented one [default: prices.ron beside the site folder, where there is one]
    #[arg(long, value_name = "FILE", value_hint = ValueHint::FilePath)]
    pub prices: Option<PathBuf>,
    /// Who hands sheets over [default: letterhead.ron beside the site folder, where there is one]
    #[arg(long, value_name = "FILE", value_hint = ValueHint::FilePath)]
    pub letterhead: Option<PathBuf>,
}

/// Which drawing.
#[derive(Debug, Args)]
pub struct SectionAsked {
    /// Which site.
    #[command(flatten)]
    pub site: SiteAsked,
    /// Station along the run from the door, as written on site: "12 ft 6 in", 12'6", "3.8 m". A bare number is feet, or metres on a
    /// metric site [default: the middle of the run]
    #[arg(long, value_name = "STATION", allow_hyphen_values = true)]
    pub at: Option<String>,
    /// The walk lengthwise, with a marker at the station
    #[arg(long)]
    pub long: bool,
    /// Width of the sheet in dots of 1/160 in
    #[arg(long, value_name = "DOTS", default_value_t = 1400, value_parser = clap::value_parser!(u16).range(200..=20_000))]
    pub width: u16,
    /// Height of the sheet in dots of 1/160 in
    #[arg(long, value_name = "DOTS", default_value_t = 720, value_parser = clap::value_parser!(u16).range(200..=20_000))]
    pub height: u16,
    /// Colours for dim light instead of bright sun
    #[arg(long)]
    pub dim: bool,
    /// Writes to this file instead of stdout
    #[arg(short, long, value_name = "FILE", value_hint = ValueHint::FilePath)]
    pub output: Option<PathBuf>,
}

/// Which part of the plan.
#[derive(Debug, Args)]
pub struct PlanAsked {
    /// Which site.
    #[command(flatten)]
    pub site: SiteAsked,
    /// Station in the middle of the sheet, as written on site [default: the whole walk; with --scale the middle of the run]
    #[arg(long, value_name = "STATION", allow_hyphen_values = true)]
    pub at: Option<String>,
    /// One to how many, on paper [default: as large as the whole walk fits]
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..=1000))]
    pub scale: Option<u16>,
    /// Width of the sheet in dots of 1/160 in
    #[arg(long, value_name = "DOTS", default_value_t = 1400, value_parser = clap::value_parser!(u16).range(200..=20_000))]
    pub width: u16,
    /// Height of the sheet in dots of 1/160 in
    #[arg(long, value_name = "DOTS", default_value_t = 720, value_parser = clap::value_parser!(u16).range(200..=20_000))]
    pub height: u16,
    /// Colours for dim light instead of bright sun
    #[arg(long)]
    pub dim: bool,
    /// Writes to this file instead of stdout
    #[arg(short, long, value_name = "FILE", value_hint = ValueHint::FilePath)]
    pub output: Option<PathBuf>,
}

/// Which order.
#[derive(Debug, Args)]
pub struct OrderAsked {
    /// Which site.
    #[command(flatten)]
    pub site: SiteAsked,
    /// The way of rebuilding [default: as the site has it]
    #[arg(long, value_enum, value_name = "WAY")]
    pub way: Option<WayAsked>,
    /// How each line comes about, under it
    #[arg(long, conflicts_with_all = ["csv", "json", "message"])]
    pub why: bool,
    /// Comma-separated values for a spreadsheet, of the way that is ordered
    #[arg(long, conflicts_with_all = ["json", "message"])]
    pub csv: bool,
    /// JSON for machines, all ways
    #[arg(long, conflicts_with = "message")]
    pub json: bool,
    /// What is sent to each supplier
    #[arg(long)]
    pub message: bool,
}

/// A way of rebuilding.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum WayAsked {
    /// The old brick on a new setting bed over the base that is there
    Relay,
    /// A new base under the old brick
    NewBase,
    /// A new base and new brick
    NewBrick,
}

/// Which stakes.
#[derive(Debug, Args)]
pub struct StakesAsked {
    /// Which site.
    #[command(flatten)]
    pub site: SiteAsked,
    /// From stake to stake, as written on site: "5 ft", "1.5 m". A bare number is feet, or metres on a metric site [default: as the
    /// site has it, else 10 ft or 3 m]
    #[arg(long, value_name = "LENGTH", allow_hyphen_values = true)]
    pub spacing: Option<String>,
    /// Comma-separated values for a spreadsheet
    #[arg(long, conflicts_with = "json")]
    pub csv: bool,
    /// JSON for machines
    #[arg(long)]
    pub json: bool,
}

/// Which sheets.
#[derive(Debug, Args)]
pub struct SheetsAsked {
    /// Which site.
    #[command(flatten)]
    pub site: SiteAsked,
    /// Folder that they are written to; it is made where there is none
    #[arg(long, value_name = "FOLDER", value_hint = ValueHint::DirPath)]
    pub out: PathBuf,
    /// Language of crew sheet and drawings [default: as the site has it]
    #[arg(long, value_name = "LANGUAGE")]
    pub lang: Option<Tongue>,
    /// Paper of the PDFs
    #[arg(long, value_name = "PAPER", default_value = "letter")]
    pub paper: PaperAsked,
    /// Date on the sheets: year, month, day, such as 2026-05-04 [default: today]
    #[arg(long, value_name = "DATE")]
    pub date: Option<String>,
}

/// A language.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub enum Tongue {
    /// English.
    En,
    /// Spanish.
    Es,
}

/// A sheet of paper.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub enum PaperAsked {
    /// US Letter.
    Letter,
    /// A4.
    A4,
}

/// Which agreement.
#[derive(Debug, Args)]
pub struct AgreementAsked {
    /// Which site.
    #[command(flatten)]
    pub site: SiteAsked,
    /// Only what has changed since it was agreed
    #[arg(long, conflicts_with = "message")]
    pub changes: bool,
    /// The finding, the ways and the scope as a message to the owner
    #[arg(long)]
    pub message: bool,
}

/// Which results.
#[derive(Debug, Args)]
pub struct ResultsAsked {
    /// Which site.
    #[command(flatten)]
    pub site: SiteAsked,
    /// JSON for machines instead of text for people
    #[arg(long)]
    pub json: bool,
}
