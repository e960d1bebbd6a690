import type { OilPathPart } from "@/lib/domain/diagnosis/oil-path";
import { bolt, clip, hose, oil, picture, unitFromTheSide, wheel } from "./materials";

export interface Scene {
  subject: OilPathPart | "unit" | "other";
  svg: string;
}

const ENGINE_BLOCK = `<path d="M760 560H1200V900H690V640Z" fill="#3b3d3d" stroke="#1b1c1c" stroke-width="4"/><path d="M760 560H1200M720 720H1200" stroke="#56595a" stroke-width="5"/>${bolt(830, 610, 15)}${bolt(1000, 610, 15)}${bolt(1150, 610, 15)}`;

function drain(path: string, extra = ""): Scene {
  return { subject: "drain", svg: picture("bay", `${ENGINE_BLOCK}${unitFromTheSide(470, 250)}${hose(path, 62)}${clip(517, 372, 84, 0)}${extra}`) };
}

function airInlet(wetness: string): string {
  return picture(
    "bay",
    `<circle cx="600" cy="450" r="390" fill="url(#cast)" stroke="#2b2a28" stroke-width="6"/><circle cx="600" cy="450" r="330" fill="#8b8882"/><circle cx="600" cy="450" r="300" fill="url(#bore)"/>${wheel(600, 450, 262, 12, "#b9bab6")}${wetness}${bolt(290, 210, 22)}${bolt(910, 210, 22)}${bolt(290, 700, 22)}${bolt(910, 700, 22)}`,
  );
}

function coneFilter(colour: string, dirt: string): string {
  const pleats = Array.from({ length: 26 }, (_, pleat) => {
    const x = 420 + pleat * 20;
    return `<path d="M${x} ${250 + pleat * 5}V${690 - pleat * 5}" stroke="#1f1d1a" stroke-width="6" opacity="0.55"/>`;
  }).join("");
  return `${hose("M120 470H400", 150, "#26292b")}${clip(340, 470, 34, 0)}<path d="M400 240L930 370V570L400 700Z" fill="${colour}" stroke="#1d1b18" stroke-width="5"/>${pleats}<path d="M400 225H440V715H400Z" fill="#1b1b1b"/><ellipse cx="935" cy="470" rx="46" ry="112" fill="#202020" stroke="#4a4a4a" stroke-width="5"/>${dirt}`;
}

/** Every picture of the demo, by what it shows. */
export const SCENES = {
  "drain-level": drain("M517 345V470C517 560 560 590 640 592C700 594 720 600 790 596", clip(770, 597, 78, 90)),
  "drain-sagging": drain("M517 345V520C517 700 570 770 650 760C720 750 720 650 800 640", clip(786, 643, 78, 80)),
  "drain-kinked": drain(
    "M517 345V455L586 520L560 574L640 640C690 670 740 660 800 664",
    `<path d="M556 500L606 530M546 580L590 556" stroke="#000" stroke-width="9" opacity="0.8"/><path d="M570 512L598 528" stroke="#7a7f82" stroke-width="4"/>${clip(784, 664, 78, 90)}`,
  ),
  "drain-straight": drain("M517 345C517 470 560 560 620 660C650 710 690 730 740 742", clip(716, 735, 78, 108)),
  "compressor-dry": { subject: "compressor", svg: airInlet("") },
  "compressor-film": {
    subject: "compressor",
    svg: airInlet(oil("M330 560C380 700 520 760 610 754C720 748 830 680 868 560C820 650 720 706 600 708C490 708 390 650 330 560Z", 0.7)),
  },
  "compressor-puddle": {
    subject: "compressor",
    svg: airInlet(
      oil("M316 520C360 730 500 772 610 768C740 764 850 690 884 520C840 600 760 616 690 604C600 590 520 640 440 606C390 588 350 570 316 520Z") +
        oil("M500 300C520 290 530 330 520 380C512 420 492 400 494 360Z", 0.7) +
        oil("M690 340C706 330 712 380 702 420C694 446 680 430 682 390Z", 0.7),
    ),
  },
  "turbine-wet": {
    subject: "turbine",
    svg: picture(
      "bay",
      `<circle cx="590" cy="440" r="380" fill="url(#iron)" stroke="#1a120d" stroke-width="6"/><circle cx="590" cy="440" r="310" fill="#3e2f27"/><circle cx="590" cy="440" r="280" fill="url(#bore)"/>${wheel(590, 440, 240, 10, "#7a6a5f")}${oil("M322 500C360 690 500 724 596 720C720 716 820 640 858 500C900 640 800 772 660 790L648 860C646 884 626 884 624 860L620 796C470 800 330 690 322 500Z")}${bolt(300, 200, 24)}${bolt(880, 200, 24)}${bolt(286, 660, 24)}${bolt(896, 660, 24)}`,
    ),
  },
  "turbine-dry": {
    subject: "turbine",
    svg: picture(
      "bay",
      `<circle cx="590" cy="440" r="380" fill="url(#iron)" stroke="#1a120d" stroke-width="6"/><circle cx="590" cy="440" r="310" fill="#6b5546"/><circle cx="590" cy="440" r="280" fill="url(#bore)"/>${wheel(590, 440, 240, 10, "#a08a7b")}${bolt(300, 200, 24)}${bolt(880, 200, 24)}${bolt(286, 660, 24)}${bolt(896, 660, 24)}`,
    ),
  },
  "vent-element": {
    subject: "vent",
    svg: picture(
      "bay",
      `<path d="M0 700H1200V900H0Z" fill="#33373a"/>${hose("M90 860C180 700 250 560 360 520C440 492 470 470 520 470", 78)}${clip(515, 470, 30, 0)}<rect x="530" y="390" width="300" height="160" rx="22" fill="url(#mesh)" stroke="#2a2924" stroke-width="6"/><rect x="516" y="400" width="34" height="140" rx="8" fill="url(#steel)"/><rect x="816" y="380" width="40" height="180" rx="10" fill="#26282a"/>${oil("M600 540C640 556 720 556 760 540C764 600 740 610 730 660C724 690 708 690 704 660C690 610 610 600 600 540Z", 0.8)}${bolt(980, 300, 20)}${bolt(1080, 300, 20)}`,
    ),
  },
  "vent-to-intake": {
    subject: "vent",
    svg: picture(
      "bay",
      `${hose("M-20 380H760C900 380 980 450 1220 460", 190, "#2b2e30")}${hose("M300 920C310 760 380 700 440 620C480 560 520 520 560 470", 66)}<rect x="520" y="400" width="84" height="76" rx="12" transform="rotate(38 562 438)" fill="url(#cast)"/>${clip(520, 528, 76, 128)}<rect x="180" y="850" width="260" height="60" fill="url(#cast)"/>${bolt(220, 872, 14)}${bolt(400, 872, 14)}`,
    ),
  },
  "vent-iced": {
    subject: "vent",
    svg: picture(
      "bay",
      `${hose("M60 880C160 640 360 560 560 540C720 524 800 480 900 380", 76)}<g opacity="0.88"><path d="M560 500C640 470 780 470 840 400C900 330 980 320 960 400C940 470 860 560 740 590C650 610 560 590 560 500Z" fill="#dfeaf0"/><path d="M600 580L590 690L612 600L640 740L656 596L700 680L706 584Z" fill="#cfe0ea"/><path d="M620 520C700 500 800 480 860 410" stroke="#fff" stroke-width="10" fill="none"/></g>${clip(470, 552, 88, 80)}`,
    ),
  },
  "filter-dirty": {
    subject: "intake",
    svg: picture(
      "bay",
      coneFilter("#5b4a33", `<path d="M420 560C520 640 700 620 900 560L930 570L400 700Z" fill="#17120a" opacity="0.75"/><ellipse cx="560" cy="360" rx="120" ry="46" fill="#231a0d" opacity="0.6"/>`),
    ),
  },
  "filter-small": { subject: "intake", svg: picture("bay", `<g transform="translate(240 200) scale(0.6)">${coneFilter("#9a3f30", "")}</g>${unitFromTheSide(240, 640)}`) },
  "shaft-play": {
    subject: "shaft",
    svg: picture(
      "bench",
      `<rect x="188" y="90" width="44" height="760" fill="url(#steel)"/><rect x="80" y="820" width="260" height="50" rx="6" fill="#4b4d4e"/>${unitFromTheSide(800, 540)}<rect x="370" y="532" width="220" height="16" fill="url(#steel)" stroke="#444"/><circle cx="586" cy="540" r="11" fill="#d9dbdb"/><circle cx="210" cy="540" r="172" fill="#2b2d2e"/><circle cx="210" cy="540" r="156" fill="#f4f1e6"/>${dialTicks(210, 540)}<path d="M210 540L${(210 + 122 * Math.sin(1.95)).toFixed(1)} ${(540 - 122 * Math.cos(1.95)).toFixed(1)}" stroke="#b3261e" stroke-width="7" stroke-linecap="round"/><circle cx="210" cy="540" r="13" fill="#222"/><text x="210" y="476" font-family="sans-serif" font-size="28" text-anchor="middle" fill="#333">0.01 mm</text>`,
    ),
  },
  "seal-ring": {
    subject: "unit",
    svg: picture(
      "bench",
      `<ellipse cx="610" cy="600" rx="480" ry="70" fill="#000" opacity="0.35" filter="url(#soft)"/><rect x="150" y="430" width="640" height="86" rx="8" fill="url(#steel)" stroke="#333" stroke-width="3"/><rect x="560" y="400" width="150" height="146" rx="6" fill="url(#steel)" stroke="#333" stroke-width="3"/><rect x="604" y="400" width="18" height="146" fill="#2a2a2a"/><rect x="660" y="400" width="18" height="146" fill="#2a2a2a"/>${wheel(880, 472, 200, 10, "#8d7f74")}<path d="M330 700A92 92 0 1 1 470 740" fill="none" stroke="#2b2b2b" stroke-width="13"/><path d="M330 700A92 92 0 1 1 470 740" fill="none" stroke="#a4a7a8" stroke-width="7"/><path d="M520 790A92 92 0 0 0 566 706" fill="none" stroke="#2b2b2b" stroke-width="13"/><path d="M520 790A92 92 0 0 0 566 706" fill="none" stroke="#a4a7a8" stroke-width="7"/>`,
    ),
  },
  dipstick: {
    subject: "crankcase",
    svg: picture(
      "bay",
      `<rect x="-20" y="420" width="1240" height="70" rx="12" transform="rotate(-9 600 450)" fill="url(#steel)" stroke="#333" stroke-width="3"/><g transform="rotate(-9 600 450)">${oil("M-20 424H820V486H-20Z", 0.78)}<circle cx="520" cy="455" r="14" fill="#26282a"/><circle cx="760" cy="455" r="14" fill="#26282a"/><path d="M520 410L560 500M580 410L620 500M640 410L680 500M700 410L740 500" stroke="#3a3d3f" stroke-width="5"/></g><path d="M880 300C960 340 1010 560 960 760L1220 860V260Z" fill="#caa88c" opacity="0.9"/>`,
    ),
  },
  "broken-crate": {
    subject: "other",
    svg: picture(
      "bench",
      `<ellipse cx="600" cy="800" rx="460" ry="60" fill="#000" opacity="0.4" filter="url(#soft)"/><path d="M200 330L620 240L1010 340V720L620 820L200 700Z" fill="#b98f5c" stroke="#6b4b25" stroke-width="6"/><path d="M200 330L620 430L1010 340M620 430V820" fill="none" stroke="#6b4b25" stroke-width="6"/><path d="M760 470L900 420L940 560L880 640L820 590L780 650Z" fill="#1a1511"/><path d="M760 470L830 520L820 590M900 420L880 500L940 560" stroke="#e0c39a" stroke-width="9" fill="none"/><path d="M240 400L580 480M240 520L580 610M240 620L580 720" stroke="#8d6636" stroke-width="5"/><rect x="290" y="450" width="200" height="120" transform="skewY(13) translate(0 -70)" fill="#f2ead9"/><path d="M310 480H470M310 506H440M310 532H460" transform="skewY(13) translate(0 -70)" stroke="#555" stroke-width="8"/>`,
    ),
  },
} as const satisfies Record<string, Scene>;
export type SceneName = keyof typeof SCENES;

function dialTicks(x: number, y: number): string {
  return Array.from({ length: 50 }, (_, tick) => {
    const angle = (tick * 2 * Math.PI) / 50;
    const inner = tick % 5 === 0 ? 126 : 138;
    const at = (radius: number) => `${(x + radius * Math.sin(angle)).toFixed(1)} ${(y - radius * Math.cos(angle)).toFixed(1)}`;
    return `<path d="M${at(inner)}L${at(148)}" stroke="#222" stroke-width="${tick % 5 === 0 ? 5 : 2}"/>`;
  }).join("");
}
