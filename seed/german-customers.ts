import { DAY } from "./calendar";
import type { World } from "./world";
import type { Row, Value } from "./tables";

/** Since when customers can file in German. */
const SINCE = 30 * DAY;
const WHERE_GERMAN_IS_SPOKEN: readonly Value[] = ["DE", "AT"];

/** What both sides of the demo write, in German. */
const IN_GERMAN: Readonly<Record<string, string>> = {
  "Any news? Car is standing.": "Gibt es was Neues? Das Auto steht.",
  "Photos are up, sorry for the oily fingers.": "Fotos sind drin, sorry wegen der Ölfinger.",
  "Looked at it again with a lamp, same as I wrote.": "Habe nochmal mit der Lampe nachgesehen, ist so wie ich geschrieben habe.",
  "The garage can take it on the ramp on Thursday, is that soon enough?": "Die Werkstatt kann es am Donnerstag auf die Bühne nehmen, reicht das?",
  "ok will do at the weekend": "ok mache ich am wochenende",
  "I dont have a dial gauge. Is by hand enough?": "Eine Messuhr habe ich nicht. Reicht es von Hand?",
  "Checked the drain, it goes down all the way I think. See photo.": "Rücklauf angeschaut, der geht glaube ich überall bergab. Siehe Foto.",
  "Wiped it dry and drove to work and back, wet again.": "Trocken gewischt, zur Arbeit und zurück gefahren, wieder nass.",
  "Thanks for the quick answer.": "Danke für die schnelle Antwort.",
  "Who pays the gasket if I take the drain off?": "Wer zahlt die Dichtung, wenn ich den Rücklauf abnehme?",
  "Thank you for the photos. Please keep the engine off until the check below is done; it takes a few minutes and costs nothing.":
    "Danke für die Fotos. Bitte lassen Sie den Motor aus, bis die Prüfung unten gemacht ist. Sie dauert ein paar Minuten und kostet nichts.",
  "We have your complaint. The drain is the first thing to look at: please check it from above, with the engine cold.":
    "Ihre Reklamation ist bei uns. Zuerst kommt der Ölrücklauf: Bitte sehen Sie ihn sich von oben an, bei kaltem Motor.",
  "Thank you. That rules out the filter. One more look is worth it before we ask you to take anything apart.":
    "Danke, damit scheidet der Filter aus. Ein Blick lohnt sich noch, bevor wir Sie bitten, etwas auszubauen.",
  "Please let your garage do this one, it needs the vehicle on stands.": "Lassen Sie das bitte Ihre Werkstatt machen, das Fahrzeug muss dafür auf Böcken stehen.",
  "We would like to see the unit on our bench. The label is on your complaint's page.": "Wir würden den Lader gern selbst untersuchen. Das Etikett finden Sie auf Ihrer Seite.",
  "No need to send anything in yet. Most leaks of this kind are put right at the drain or the vent.":
    "Sie müssen noch nichts einschicken. Meist lässt sich so etwas am Rücklauf oder an der Entlüftung beheben.",
  "Understood, and sorry for the trouble. You will have our decision as soon as the bench has looked at the unit.":
    "Verstanden, und entschuldigen Sie die Mühe. Sie hören von uns, sobald der Lader untersucht ist.",
  "By hand is not enough for fore-and-aft play, but do not buy a gauge for it: your garage will have one.":
    "Für das Spiel längs reicht es von Hand nicht. Kaufen Sie dafür aber keine Messuhr: Ihre Werkstatt hat eine.",
  "A photo from the side would help.": "Ein Foto von der Seite würde helfen.",
  "With the engine cold, please.": "Bitte bei kaltem Motor.",
  "If you cannot see it from above, leave it to your garage.": "Wenn Sie es von oben nicht sehen, überlassen Sie es Ihrer Werkstatt.",
  "Rerouted the hose as you said, dry since a week. Thank you!": "Schlauch neu verlegt, wie Sie gesagt haben. Seit einer Woche trocken, danke!",
  "It was the element. Took it out, no more oil.": "Es war der Einsatz. Rausgenommen, kein Öl mehr.",
  "Garage found it and put it right, you can close this.": "Die Werkstatt hat es gefunden und behoben, Sie können es schließen.",
  "Drained some oil out, level is ok now and it stays dry.": "Etwas Öl abgelassen, Stand passt jetzt und es bleibt trocken.",
  "Sold the car, no longer needed.": "Auto verkauft, hat sich erledigt.",
  "Sorry, found a loose clip on the rocker cover. Not the turbo.": "Sorry, war eine lose Schelle am Ventildeckel. Nicht der Turbo.",
  "I have taken it back to the garage, they deal with it.": "Ich habe es zur Werkstatt gebracht, die kümmern sich.",
  "I dont agree, the garage says the fitting is fine. Please look at it again.": "Das sehe ich anders, die Werkstatt sagt, der Einbau ist in Ordnung. Bitte nochmal prüfen.",
};

/**
 * Customers in Germany and Austria file in German of late: their words, what was written to and fro, and with it the
 * language of their mails and letters. Only claims whose every word is known in German, so that none is half and half.
 */
export function letSomeWriteInGerman({ random, tables, now }: World): void {
  const kept = new Set(tables.rows("outgoing_mail").map(({ claim_id }) => claim_id));
  const englishWords = new Set([...tables.rows("message"), ...tables.rows("check_request")].flatMap((row) => (inGerman(row) === null ? [row.claim_id] : [])));
  const german = new Map<Value, string>();
  for (const claim of tables.rows("claim")) {
    const isOfLate = typeof claim.filed_at === "string" && now - Date.parse(claim.filed_at) < SINCE;
    const isGenerated = (claim.answers as Row).pictures === undefined;
    if (!isOfLate || !isGenerated || !WHERE_GERMAN_IS_SPOKEN.includes(claim.country ?? null) || kept.has(claim.id) || englishWords.has(claim.id)) continue;
    const seen = new Map(tables.rows("finding").filter(({ claim_id }) => claim_id === claim.id).map(({ code, answer }) => [code, answer]));
    const weeks = Math.max(1, Math.round((Date.parse(String(claim.filed_at)) - Date.parse(String(claim.fitted_on))) / (7 * DAY)));
    german.set(claim.id ?? null, [
      `${random.pick(seen.get("F04") === "absent" ? ["Ein Ölfilm", "Leicht ölig"] : ["Es tropft Öl", "Da steht Öl", "Ziemlich viel Öl"])} ${placeOf(seen)} ${seen.get("F07") === "first-start" ? "seit dem ersten Start" : `nach ungefähr ${weeks} Wochen`}.`,
      random.pick(["", "Selbst eingebaut, in Ruhe.", "Die Werkstatt hat ihn eingebaut und sagt, der Lader ist defekt."]),
      random.pick(["", "Was nun?", "Ist das normal??", "Ich brauche das Auto für die Arbeit.", "bitte um rat", "Was kann ich prüfen, Werkzeug ist da."]),
    ].filter(Boolean).join(" "));
  }
  tables.revise("claim", ({ id = null, description = null }) => ({ language: german.has(id) ? "de" : "en", description: german.get(id) ?? description }));
  tables.revise("message", (row) => (german.has(row.claim_id ?? null) ? { body: inGerman(row) } : {}));
  tables.revise("check_request", (row) => (german.has(row.claim_id ?? null) ? { note: inGerman(row) } : {}));
}

/** The body of a message or the note of a check; null where there is no German of it. */
function inGerman({ body, note }: Row): string | null {
  const words = String(body ?? note);
  return words === "" ? "" : (IN_GERMAN[words] ?? null);
}

function placeOf(seen: ReadonlyMap<Value | undefined, Value | undefined>): string {
  const [turbine, compressor] = [seen.get("F01") === "present", seen.get("F02") === "present"];
  if (turbine && compressor) return "auf beiden Seiten vom Turbo";
  if (turbine) return "auf der Abgasseite";
  return compressor ? "im Ladeluftrohr" : "außen am Turbo";
}
