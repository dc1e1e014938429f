//! A site without readings, needs and price lists made by hand. All prices are invented.

use underbrick_calc::measure::slope::Fall;
use underbrick_calc::order::{
    Comes, Currency, Decimal, Holds, Item, ItemPrice, Money, Need, NeedAmount, Needs, Offer,
    OrderLine, PriceList, Priced, SaleUnit, Sold, Stage, StageHours, Way, Work, WorkAmount, priced,
};
use underbrick_calc::quantity::{
    CUBIC_FOOT_M3, CUBIC_YARD_M3, Mass, POUND_KG, Volume, cubic_metres, unit,
};
use underbrick_calc::site::{
    BedInput, Brick, EdgeInput, EdgeStands, FarEnd, GradeShape, LevelBook, LineInput, MaterialKey,
    RestraintInput, ShownIn, Site,
};

pub fn dec(text: &str) -> Decimal {
    text.parse().unwrap()
}

pub fn money(text: &str) -> Money {
    Money(dec(text))
}

pub fn cubic_yards(number: f64) -> Volume {
    cubic_metres(number * CUBIC_YARD_M3)
}

pub fn cubic_feet(number: f64) -> Volume {
    cubic_metres(number * CUBIC_FOOT_M3)
}

pub fn pounds(number: f64) -> Mass {
    Mass::new::<unit::kilogram>(number * POUND_KG)
}

/// Nothing but what the order asks of a site.
pub fn site() -> Site {
    Site {
        address: "12 Invented Lane".to_owned(),
        walk: "front walk".to_owned(),
        shown_in: ShownIn::FeetInches,
        signs: Vec::new(),
        line: LineInput {
            old_below_sill: None,
            first_brick_below_sill: None,
            legs: Vec::new(),
            width: None,
            fall: Fall::from_ratio(0.0),
            cross_fall: None,
            far_end: FarEnd::Free,
            shape: GradeShape::Uniform,
            string_above_sill: None,
            rod_at_sill: None,
            book: LevelBook::default(),
            shots: Vec::new(),
        },
        pits: Vec::new(),
        bed: BedInput {
            setting_bed: None,
            least_base: None,
            base_material: MaterialKey("crusher_run".to_owned()),
            loose_lift: None,
            side_extension: None,
            undercut_limit: None,
            fabric: false,
            plant: underbrick_calc::build::Plant::NotKnown,
        },
        brick: Brick {
            length: None,
            width: None,
            thickness: None,
            joint: None,
        },
        soil: Default::default(),
        frost: Default::default(),
        lay: Default::default(),
        order: Default::default(),
        build: Default::default(),
        show: Default::default(),
        edge: EdgeInput {
            stands: EdgeStands::Header,
            restraint: RestraintInput::Nothing,
        },
    }
}

pub fn need(item: Item, amount: NeedAmount) -> Need {
    Need {
        item,
        material: None,
        name: item.name().to_owned(),
        amount: Some(amount),
        is_least: false,
        from: Vec::new(),
        steps: Vec::new(),
    }
}

/// So much loose volume, with its dry weight by the cubic foot loose, and a fifth less in place.
pub fn bulk(loose: Volume, pounds_a_cubic_foot: f64) -> NeedAmount {
    let loose_ft3 = loose.get::<unit::cubic_meter>() / CUBIC_FOOT_M3;
    NeedAmount::Bulk {
        in_place: loose / 1.25,
        loose,
        dry_mass: pounds(loose_ft3 * pounds_a_cubic_foot),
    }
}

pub fn pieces(n: u32) -> NeedAmount {
    NeedAmount::Pieces {
        n,
        each_covers: None,
        each_weighs: None,
    }
}

/// At 10.00 each, in whole units, fetched.
pub fn offer(unit: SaleUnit, holds: Option<Holds>) -> Offer {
    Offer {
        supplier: "Stone Yard".to_owned(),
        rate: money("10"),
        unit,
        holds,
        step: Decimal::ONE,
        minimum: Decimal::ZERO,
        loose_density: None,
        loose_to_compacted: None,
        moisture: None,
        comes: Comes::PickedUp,
    }
}

/// Without waste, not taxed.
pub fn sells(item: Item, offers: Vec<Offer>) -> ItemPrice {
    ItemPrice {
        item,
        material: None,
        waste: Decimal::ZERO,
        is_taxed: false,
        offers,
    }
}

pub fn list(items: Vec<ItemPrice>) -> PriceList {
    PriceList {
        name: "Invented".to_owned(),
        currency: Currency::default(),
        items,
        ..PriceList::default()
    }
}

pub fn needs(items: Vec<Need>) -> Needs {
    Needs {
        items,
        ..Needs::default()
    }
}

pub fn work(stage: Stage, amount: WorkAmount) -> Work {
    Work {
        stage,
        amount: Some(amount),
        is_least: false,
        from: Vec::new(),
    }
}

pub fn stage_hours(stage: Stage, hours: &str, per: Option<SaleUnit>) -> StageHours {
    StageHours {
        stage,
        hours: dec(hours),
        per,
    }
}

pub fn price(list: &PriceList, needs: Needs) -> Priced {
    price_at(&site(), list, needs)
}

pub fn price_at(site: &Site, list: &PriceList, needs: Needs) -> Priced {
    priced(site, list, Way::NewBase, needs, None, &[])
}

/// The one line that one need and one price make.
pub fn line(price_of_it: ItemPrice, amount: NeedAmount) -> OrderLine {
    line_at(&site(), price_of_it, amount)
}

pub fn line_at(site: &Site, price_of_it: ItemPrice, amount: NeedAmount) -> OrderLine {
    let need = need(price_of_it.item, amount);
    let priced = price_at(site, &list(vec![price_of_it]), needs(vec![need]));
    assert_eq!(priced.lines.len(), 1);
    priced.lines.into_iter().next().unwrap()
}

#[track_caller]
pub fn sold(line: &OrderLine) -> &Sold {
    match &line.sold {
        Some(sold) => sold,
        None => panic!("no price: {:?}", line.said),
    }
}
