/** Hatchings that drawings and scales on the page fill with, defined once so that their ids are unique. */
export function DrawingPatterns() {
  return (
    <svg className="patterns" aria-hidden="true" focusable="false">
      <defs>
        <pattern id="pattern-section" width="8" height="8" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <rect className="pattern-ground" width="8" height="8" />
          <line className="pattern-thin" x1="0" y1="0" x2="0" y2="8" />
        </pattern>
        <pattern id="pattern-hatched" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <rect className="pattern-ground" width="6" height="6" />
          <line className="pattern-ink" strokeWidth="5" x1="0" y1="0" x2="0" y2="6" />
        </pattern>
        <pattern id="pattern-dotted" width="5" height="5" patternUnits="userSpaceOnUse">
          <rect className="pattern-ground" width="5" height="5" />
          <circle className="pattern-dot" cx="2.5" cy="2.5" r="1.2" />
        </pattern>
        <pattern id="pattern-crossed" width="6" height="6" patternUnits="userSpaceOnUse">
          <rect className="pattern-ground" width="6" height="6" />
          <path className="pattern-ink" d="M0 0L6 6M6 0L0 6" />
        </pattern>
      </defs>
    </svg>
  );
}
