import { LAW_COMES_FIRST } from "@/lib/domain/warranty/outcome";
import type { TermsDocument } from "@/lib/domain/warranty/terms";
import { countryInWords, FITTER_WORDS, kitTermsInWords, lossInWords, periodInWords } from "./terms-words";
import styles from "./warranty.module.css";

/** One version of the terms, to read. */
export function TermsSheet({ document: { period, fitter, lostBy, kits, countries }, kitNames }: { document: TermsDocument; kitNames: ReadonlyMap<string, string> }) {
  return (
    <>
      <p className="note">{LAW_COMES_FIRST}</p>
      <dl className={styles.facts}>
        <div>
          <dt>It holds for</dt>
          <dd>{periodInWords(period)}</dd>
        </div>
        <div>
          <dt>It may be fitted by</dt>
          <dd>{FITTER_WORDS[fitter]}</dd>
        </div>
        <div>
          <dt>It is lost by</dt>
          <dd>
            {lostBy.length === 0 ? (
              "nothing"
            ) : (
              <ul>
                {lossInWords(lostBy).map((words) => (
                  <li key={words}>{words}</li>
                ))}
              </ul>
            )}
          </dd>
        </div>
        {kits.map((own) => (
          <div key={own.kit}>
            <dt>{kitNames.get(own.kit) ?? own.kit}</dt>
            <dd>{kitTermsInWords(own)}</dd>
          </div>
        ))}
        {countries.map(({ country, note }) => (
          <div key={country}>
            <dt>{countryInWords(country)}</dt>
            <dd>{note}</dd>
          </div>
        ))}
      </dl>
    </>
  );
}
