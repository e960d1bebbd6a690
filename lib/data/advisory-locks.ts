/**
 * Numbers of our advisory locks, each any that no other program takes in the same database. They stand together, with the
 * one that a trigger takes, as two uses of one number would wait for each other.
 */
export const LOCKS = {
  migrations: 7_316_402_551,
  /** Migrations that rebuild cells take it too. */
  reportCells: 7_316_402_552,
  signals: 7_316_402_553,
  /** Taken by the triggers `note_shipped` and `note_batch` alone. */
  shippedUnits: 7_316_402_554,
  /** Held as long as a worker runs. */
  worker: 7_316_402_555,
} as const;
