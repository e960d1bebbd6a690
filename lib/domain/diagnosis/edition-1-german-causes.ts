import type { CauseCode } from "./knowledge";

/** Causes of the first edition in German: as a sentence that opens a paragraph or follows a colon, and what puts it right. */
export const GERMAN_CAUSES: Readonly<Record<CauseCode, { plainName: string; advice: string }>> = {
  C01: {
    plainName: "Der Ölrücklauf liegt waagerecht, steigt an oder hängt durch",
    advice: "Verlegen Sie den Rücklauf neu. Er muss überall fallen, so steil wie Platz ist. Das Öl läuft nur durch sein Gewicht ab, nichts pumpt es.",
  },
  C02: {
    plainName: "Der Ölrücklauf ist geknickt, gequetscht oder verstopft",
    advice: "Bauen Sie den Rücklauf ab und sehen Sie ganz hindurch. Ist er geknickt, gequetscht, verkokt oder gequollen, ersetzen Sie ihn. Nehmen Sie eine neue Dichtung, keine Dichtmasse.",
  },
  C03: {
    plainName: "Der Ölrücklauf ist zu eng, oder seine Anschlüsse oder das Loch der Dichtung sind es",
    advice: "Nehmen Sie einen Rücklauf, der innen nicht enger ist als das Loch im Gehäuse. Die Dichtung muss ein gleich großes Loch haben. Weite Bögen sind besser als enge Winkel.",
  },
  C04: {
    plainName: "Der Ölrücklauf mündet unter dem Ölstand oder dort, wo die Kurbelwelle Öl schleudert",
    advice: "Setzen Sie die Mündung des Rücklaufs höher: über den Ölstand bei laufendem Motor und weg von der Kurbelwelle.",
  },
  C05: {
    plainName: "Das mittlere Gehäuse des Laders ist zu weit gedreht oder geneigt",
    advice: "Drehen Sie das mittlere Gehäuse so, dass der Ölablauf gerade nach unten zeigt und die Welle waagerecht liegt. Halten Sie die Grenzen in den Daten des Laders ein.",
  },
  C06: {
    plainName: "Die Kurbelgehäuse-Entlüftung wurde beim Einbau verengt oder verschlossen",
    advice: "Das Kurbelgehäuse braucht eine freie Entlüftung in voller Weite: ohne Einsatz und ohne langen oder durchhängenden Schlauch. Halten Sie die Angaben des Motorherstellers und das Recht bei Ihnen ein.",
  },
  C07: {
    plainName: "Die Kurbelgehäuse-Entlüftung ist vereist oder verstopft",
    advice: "Reinigen oder ersetzen Sie den Schlauch und das Ventil der Entlüftung. Friert es bei Ihnen, lassen Sie sie dämmen oder heizen, wie es der Motorhersteller vorsieht.",
  },
  C08: {
    plainName: "Der Motor ist verschlissen und bläst Gas in sein Kurbelgehäuse",
    advice: "Lassen Sie Kompression oder Druckverlust und das Blow-by messen. Auch ein neuer Lader verliert Öl, bis der Motor in Ordnung ist.",
  },
  C09: {
    plainName: "Im Motor ist zu viel Öl",
    advice: "Senken Sie den Ölstand, bis er zwischen den Marken liegt. Das Fahrzeug steht dabei eben.",
  },
  C10: {
    plainName: "Der Lader bekommt zu viel Öl",
    advice: "Lassen Sie den Öldruck am Zulauf messen. Bauen Sie die Drossel ein, die in den Daten des Laders steht.",
  },
  C11: {
    plainName: "Der Luftfilter ist zu klein oder schmutzig, oder ein Luftschlauch zieht sich zusammen",
    advice: "Nehmen Sie einen sauberen Filter, der groß genug für die Luft eines Turbomotors ist, und Schläuche, die nicht zusammenfallen.",
  },
  C12: {
    plainName: "Eine undichte Stelle an der Ladeluft oder am Auspuff stört den Druck an einer Dichtung",
    advice: "Lassen Sie die Verbindungen von Ladeluft und Auspuff prüfen und dicht machen.",
  },
  C13: {
    plainName: "Etwas wurde angesaugt und hat ein Rad getroffen",
    advice: "Lassen Sie den Motor aus. Suchen Sie, woher das Teil kam. Reinigen Sie Ansaugweg, Ladeluftkühler und Auspuff, bevor ein anderer Lader hineinkommt.",
  },
  C14: {
    plainName: "Die Lager liefen beim ersten Start mit zu wenig oder mit schmutzigem Öl",
    advice: "Lassen Sie den Motor aus. Spülen Sie den Zulauf, wechseln Sie Öl und Filter, und füllen Sie den nächsten Lader vor dem ersten Start mit sauberem Öl.",
  },
  C15: {
    plainName: "Ein Dichtring im Lader sitzt falsch oder ist gebrochen",
    advice: "Lassen Sie den Motor aus und den Lader zu. Prüfen Sie vor dem nächsten Einbau: Der Rücklauf ist frei und fällt überall, und das Kurbelgehäuse kann frei atmen.",
  },
  C16: {
    plainName: "Das Axiallager des Laders ist kaputt",
    advice: "Lassen Sie den Motor aus. Suchen Sie vor dem nächsten Einbau nach Metallsplittern in Ansaugweg und Ladeluftkühler, und prüfen Sie, ob der Ölzulauf sauber ist.",
  },
  C17: {
    plainName: "Ein Gehäuse des Laders ist undicht, oder ein Teil darin ist das falsche",
    advice: "Dichten oder schweißen Sie das Gehäuse nicht. Lassen Sie den Lader, wie er ist. Wischen Sie Öl von heißen Teilen, wenn der Motor kalt ist.",
  },
  C18: {
    plainName: "Ein Ölfilm ist normal, wenn die Kurbelgehäuse-Entlüftung in den Ansaugweg führt",
    advice: "Ein dünner Film ist kein Fehler. Wischen Sie ihn ab und sehen Sie nach einigen Tagen wieder nach. Es sollte ein Film bleiben.",
  },
  C19: {
    plainName: "Ein Ölfilm ist im großen von zwei Ladern hintereinander normal",
    advice: "Ein dünner Film ist dort kein Fehler: Bei wenig Ladedruck zieht der kleine Lader die Luft durch den großen.",
  },
  C20: {
    plainName: "Es ist Öl vom Zusammenbau, vom Befüllen oder vom alten Lader und geht weg",
    advice: "Wischen Sie bei kaltem Motor ab, was Sie erreichen. Reinigen Sie Ladeluftkühler und Rohre. Sehen Sie, ob es bei normaler Fahrt wiederkommt.",
  },
  C21: {
    plainName: "Das Öl kommt von einer anderen Stelle am Fahrzeug",
    advice: "Wischen Sie alles trocken. Sehen Sie über und vor dem Lader nach: am Anschluss des Zulaufs, am Ventildeckel, an den Auslasskanälen.",
  },
  C22: {
    plainName: "Der Lader wurde auf dem Weg zu Ihnen beschädigt",
    advice: "Heben Sie die Kiste und die Fotos davon auf. Der Spediteur wird daran gemessen.",
  },
  C23: {
    plainName: "Rücklauf und Kurbelgehäuse wären allein gut genug, zusammen aber nicht",
    advice: "Verbessern Sie eines von beiden: den Rücklauf steiler oder weiter, oder die Entlüftung freier. Eins davon reicht.",
  },
};
