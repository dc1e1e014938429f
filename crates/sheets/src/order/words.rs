//! The words of an order, the same on screen, on paper and in a message.

use underbrick_calc::order::{
    Comes, Currency, Decimal, Figure, Item, ItemGroup, Labour, Money, Need, NeedAmount, OrderLine,
    Priced, SaleUnit, Sold, Stage, Step, WorkAmount,
};
use underbrick_calc::quantity::unit::kilogram;
use underbrick_calc::quantity::{CUBIC_FOOT_M3, MassDensity, POUND_KG, metres, unit};
use underbrick_calc::site::ShownIn;

/// So many units of sale: `4.5 tons`, `1 bag`.
#[must_use]
pub fn count_words(count: Decimal, unit: SaleUnit) -> String {
    let count = count.normalize();
    format!("{count} {}", unit.symbol(count == Decimal::ONE))
}

/// The first day on which an item must be there, or that on which it is loaded; counted from 0. `None` where the days do not say.
#[must_use]
pub fn day_needed(priced: &Priced, item: Item) -> Option<usize> {
    let days = &priced.programme.days;
    let has_stage = |wanted: Stage| {
        days.iter().position(|day| {
            let mut stages = day.stages.iter();
            stages.any(|(stage, _)| *stage == wanted)
        })
    };
    match item.group() {
        // What is not laid again is known once the field lies.
        ItemGroup::TakenAway if item == Item::OldBrick => has_stage(Stage::HandOver),
        ItemGroup::TakenAway => has_stage(Stage::LoadSpoil),
        ItemGroup::Material | ItemGroup::Hire => {
            days.iter().position(|day| day.on_site.contains(&item))
        }
    }
}

/// An amount without the minor unit where that is nothing: `$4,310`.
#[must_use]
pub fn plain_money(currency: Currency, amount: Money) -> String {
    let written = currency.written(amount);
    match written.strip_suffix(".00") {
        Some(whole) => whole.to_owned(),
        None => written,
    }
}

/// What a way costs, from likely to worst: `at least $4,310 to $5,120`, or `not known`.
#[must_use]
pub fn way_price_words(currency: Currency, priced: &Priced) -> String {
    let total = priced.price.total;
    if total == Money::default() {
        return "not known".to_owned();
    }
    let likely = plain_money(currency, total);
    let (is_least, words) = match &priced.worst {
        Some(worst) if worst.total > total => (
            priced.price.is_least || worst.is_least,
            format!("{likely} to {}", plain_money(currency, worst.total)),
        ),
        _ => (priced.price.is_least, likely),
    };
    if is_least {
        format!("at least {words}")
    } else {
        words
    }
}

/// A rate: `$28.50 per ton`.
#[must_use]
pub fn rate_words(sold: &Sold, currency: Currency) -> String {
    format!(
        "{} per {}",
        currency.written(sold.rate),
        sold.unit.symbol(true)
    )
}

/// What is needed, before it is rounded up: `14.1 yd³ in place, 18.3 yd³ loose`.
#[must_use]
pub fn need_words(need: &Need, shown: ShownIn) -> String {
    let amount = need.amount.map_or_else(
        || "not known".to_owned(),
        |amount| amount_words(amount, shown),
    );
    if need.is_least && need.amount.is_some() {
        format!("at least {amount}")
    } else {
        amount
    }
}

fn amount_words(amount: NeedAmount, shown: ShownIn) -> String {
    match amount {
        NeedAmount::Pieces { n, .. } => n.to_string(),
        NeedAmount::Bulk {
            in_place, loose, ..
        } => format!(
            "{} in place, {} loose",
            shown.volume(in_place),
            shown.volume(loose)
        ),
        NeedAmount::Mixed(volume) => format!("{} mixed", shown.volume(volume)),
        NeedAmount::Length(length) => shown.along(length),
        NeedAmount::Area(area) => shown.area(area),
        NeedAmount::Days(1) => "1 day".to_owned(),
        NeedAmount::Days(n) => format!("{n} days"),
    }
}

/// How much work there is: `128.0 ft²`, `42 pieces`; empty for the job as a whole.
#[must_use]
pub fn work_words(labour: &Labour, shown: ShownIn) -> String {
    match labour.work.amount {
        None => "not known".to_owned(),
        Some(WorkAmount::Area(area)) => shown.area(area),
        Some(WorkAmount::Volume(volume)) => shown.volume(volume),
        Some(WorkAmount::Length(length)) => shown.along(length),
        Some(WorkAmount::Pieces(n)) => format!("{n} pieces"),
        Some(WorkAmount::Job) => String::new(),
    }
}

/// One step of how a number comes about: `dig in plan 214.0 ft²`, and where its figure comes from.
#[must_use]
pub fn step_words(step: &Step, shown: ShownIn) -> String {
    let figure = figure_words(&step.figure, shown);
    match &step.source {
        Some(source) => format!("{}: {figure} ({source})", step.what),
        None => format!("{}: {figure}", step.what),
    }
}

fn figure_words(figure: &Figure, shown: ShownIn) -> String {
    match figure {
        // What is thinner than a metre is told as a thickness is.
        Figure::Length(length) if *length < metres(1.0) => shown.thickness(*length),
        Figure::Length(length) => shown.along(*length),
        Figure::Area(area) => shown.area(*area),
        Figure::Volume(volume) => shown.volume(*volume),
        Figure::Mass(mass) => match shown {
            ShownIn::FeetInches if mass.get::<kilogram>() < 200.0 * POUND_KG => {
                format!("{:.1} lb", mass.get::<kilogram>() / POUND_KG)
            }
            ShownIn::Metric if mass.get::<kilogram>() < 100.0 => {
                format!("{:.1} kg", mass.get::<kilogram>())
            }
            ShownIn::FeetInches | ShownIn::Metric => shown.mass(*mass),
        },
        Figure::Density(density) => density_words(*density, shown),
        Figure::Pieces(n) => n.to_string(),
        Figure::Percent(percent) => format!("{} %", trimmed(*percent)),
        Figure::Ratio(ratio) => trimmed(*ratio),
        Figure::Days(1) => "1 day".to_owned(),
        Figure::Days(n) => format!("{n} days"),
        Figure::Hours(hours) => format!("{} h", trimmed(*hours)),
        Figure::Words(words) => words.clone(),
    }
}

fn density_words(density: MassDensity, shown: ShownIn) -> String {
    let kg_per_m3 = density.get::<unit::kilogram_per_cubic_meter>();
    match shown {
        ShownIn::FeetInches => format!("{:.0} lb/ft³", kg_per_m3 * CUBIC_FOOT_M3 / POUND_KG),
        ShownIn::Metric => format!("{kg_per_m3:.0} kg/m³"),
    }
}

/// Up to three decimals, no zeros behind them.
fn trimmed(number: f64) -> String {
    let written = format!("{number:.3}");
    let written = written.trim_end_matches('0').trim_end_matches('.');
    written.to_owned()
}

/// How a line comes to the site: `2 loads, $130.00` or `fetched`; for what is taken away `taken by …` or `with your own trailer`.
#[must_use]
pub fn comes_words(sold: &Sold, is_taken_away: bool, currency: Currency) -> String {
    match (&sold.comes, is_taken_away) {
        (Comes::PickedUp, false) => "fetched".to_owned(),
        (Comes::PickedUp, true) => "with your own truck".to_owned(),
        (Comes::Delivered { .. }, _) => {
            let loads = if sold.n_loads == 1 { "load" } else { "loads" };
            let verb = if is_taken_away {
                "taken in"
            } else {
                "delivered in"
            };
            format!(
                "{verb} {} {loads}, {}",
                sold.n_loads,
                currency.written(sold.delivery)
            )
        }
    }
}

/// What the readings need of a line against what is bought: `needs 3.82, round-up 0.18 tons`; empty where nothing is rounded up.
#[must_use]
pub fn round_up_words(sold: &Sold) -> String {
    match (sold.exact, sold.count) {
        (Some(exact), Some(count)) if count > exact && !sold.is_locked => format!(
            "{} needed, {} rounded up",
            at_most_three(exact),
            at_most_three(count - exact)
        ),
        _ => String::new(),
    }
}

/// A decimal number to three decimals.
fn at_most_three(number: Decimal) -> String {
    number.round_dp(3).normalize().to_string()
}

/// How a line comes about, step by step, to defend it: from the readings to what is bought and what it costs.
#[must_use]
pub fn how_it_comes(line: &OrderLine, currency: Currency, shown: ShownIn) -> Vec<String> {
    let mut steps: Vec<String> = line
        .need
        .steps
        .iter()
        .map(|step| step_words(step, shown))
        .collect();
    if !line.waste.is_zero() {
        steps.push(format!("waste: {} %", line.waste.normalize()));
    }
    if let Some(sold) = &line.sold {
        if let (Some(count), false) = (sold.count, sold.is_locked) {
            let exact = round_up_words(sold);
            let bought = count_words(count, sold.unit);
            steps.push(if exact.is_empty() {
                format!("as bought: {bought}")
            } else {
                format!("as bought: {bought} ({exact})")
            });
        }
        if let Some(amount) = sold.amount {
            let own = if sold.is_own_rate {
                ", set for this job"
            } else {
                ""
            };
            steps.push(format!(
                "× {}{own} = {}",
                rate_words(sold, currency),
                currency.written(amount)
            ));
        }
    }
    steps.extend(line.said.iter().cloned());
    steps
}
