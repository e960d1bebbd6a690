/** An open page says so this often; who has said nothing for so long has it open no more (judgement). */
export const SIGN_OF_LIFE_SECONDS = 20;
const GONE_AFTER_SECONDS = 60;

/** Whose last sign of life is older than this is gone. */
export function goneBefore(now: Date): Date {
  return new Date(now.getTime() - GONE_AFTER_SECONDS * 1000);
}
