"""Reckons orders again in Python's decimal arithmetic: reads the JSON of `underbrick order SITE --json` from standard input, any number
of orders one after another. From counts, rates, hours and percents come amounts, sums, tax and total; each must be the same to the digit.

What is read, every number a text:
{"currency", "decimals",
 "ways": [{"way",
   "lines": [{"item", "group": "Bought" | "Taken away" | "Hired", "count" | null, "rate" | null, "amount" | null, "delivery", "n_loads",
              "per_load", "taxed"}],
   "labour": [{"hours" | null, "rate", "amount" | null}],
   "trips": {"cost", "hours"},
   "contingency_percent", "gain": {"kind": "mark-up" | "margin", "percent"}, "tax_percent", "labour_taxed", "round_to",
   "price": {"material", "delivery", "taken_away", "hire", "labour", "hours", "cost", "contingency", "gain", "tax", "rounding", "total"}}]}
"""

import json
import sys
from decimal import ROUND_CEILING, ROUND_HALF_UP, Decimal, getcontext

getcontext().prec = 60
HUNDRED = Decimal(100)
n_compared = 0


def number(text):
    assert isinstance(text, (str, int)), f"{text!r} is neither a decimal text nor a count"
    return Decimal(text)


def same(where, ours, expected):
    global n_compared
    n_compared += 1
    if number(ours) != expected:
        sys.exit(f"{where}: {ours} instead of {expected}")


class Reckoned:
    """One way of rebuilding, from its counts, rates and percents."""

    def __init__(self, title, decimals, way):
        self.title, self.way = f"{title}, {way['way']}", way
        self.unit = Decimal(1).scaleb(-int(decimals))

    def money(self, amount):
        return amount.quantize(self.unit, rounding=ROUND_HALF_UP)

    def lines(self):
        """Amount and delivery of each line that has a price, with its group and whether it is taxed."""
        for line in self.way["lines"]:
            where = f"{self.title}, {line['item']}"
            delivery = self.money(number(line["n_loads"]) * number(line["per_load"]))
            same(f"{where}: delivery", line["delivery"], delivery)
            is_priced = line["count"] is not None and line["rate"] is not None
            if is_priced != (line["amount"] is not None):
                sys.exit(f"{where}: an amount without a count or a rate, or the other way round")
            amount = self.money(number(line["count"]) * number(line["rate"])) if is_priced else Decimal(0)
            if is_priced:
                same(f"{where}: amount", line["amount"], amount)
            yield line["group"], amount, delivery, line["taxed"]

    def wages(self):
        paid, hours = Decimal(0), number(self.way["trips"]["hours"])
        rate = Decimal(0)
        for row in self.way["labour"]:
            if row["amount"] is None:
                hours += number(row["hours"]) if row["hours"] is not None else 0
                continue
            rate = number(row["rate"])
            amount = self.money(number(row["hours"]) * rate)
            same(f"{self.title}, labour", row["amount"], amount)
            paid += amount
            hours += number(row["hours"])
        return paid + self.money(number(self.way["trips"]["hours"]) * rate), hours

    def check(self):
        way, price = self.way, self.way["price"]
        found = list(self.lines())
        of_group = lambda group: sum((amount for it, amount, *_ in found if it == group), Decimal(0))
        trips = number(way["trips"]["cost"])
        labour, hours = self.wages()
        expected = {
            "material": of_group("Bought"),
            "taken_away": of_group("Taken away"),
            "hire": of_group("Hired"),
            "delivery": sum((delivery for _, _, delivery, _ in found), trips),
            "labour": labour,
        }
        cost = sum(expected.values())
        contingency = self.money(cost * number(way["contingency_percent"]) / HUNDRED)
        before_gain = cost + contingency
        percent = number(way["gain"]["percent"])
        if way["gain"]["kind"] == "margin":
            gain = self.money(before_gain / (1 - percent / HUNDRED) - before_gain)
        else:
            gain = self.money(before_gain * percent / HUNDRED)
        selling = before_gain + gain
        taxed = sum((amount + delivery for _, amount, delivery, is_taxed in found if is_taxed), Decimal(0))
        if way["labour_taxed"]:
            taxed += labour + trips
        tax = self.money(taxed * selling * number(way["tax_percent"]) / (cost * HUNDRED)) if cost else Decimal(0)
        due, multiple = selling + tax, number(way["round_to"])
        total = (due / multiple).to_integral_value(rounding=ROUND_CEILING) * multiple if multiple > 0 else due
        expected |= {
            "hours": hours,
            "cost": cost,
            "contingency": contingency,
            "gain": gain,
            "tax": tax,
            "rounding": total - due,
            "total": total,
        }
        for name, amount in expected.items():
            same(f"{self.title}: {name}", price[name], amount)
        return sum(1 for _, amount, *_ in found if amount), total


def orders(text):
    decoder, at = json.JSONDecoder(), 0
    while (at := len(text) - len(text[at:].lstrip())) < len(text):
        order, at = decoder.raw_decode(text, at)
        yield order


n_priced = 0
for idx, order in enumerate(orders(sys.stdin.read()), start=1):
    title = order.get("address") or f"order {idx}"
    assert order["ways"], f"{title}: no way of rebuilding"
    for way in order["ways"]:
        n_lines, total = Reckoned(title, order["decimals"], way).check()
        n_priced += n_lines
        print(f"  {title[:34]:<36}{way['way']:<12}{n_lines:>3} lines{total:>14} {order['currency']}")
assert n_priced > 0, "no line has a price: nothing was compared"
print(f"  {n_compared} numbers are the same to the digit")
