import "server-only";
import type { PrismaPg } from "@prisma/adapter-pg";
import type { Transaction } from "@prisma/driver-adapter-utils";

/**
 * The stock adapter, with the queries of a transaction one after another. Prisma asks for several relations of one row at
 * once; a transaction has a single connection, on which pg is about to refuse that.
 */
export function oneAtATime(adapterFactory: PrismaPg): PrismaPg {
  const connect = adapterFactory.connect.bind(adapterFactory);
  return Object.assign(adapterFactory, {
    async connect() {
      const adapter = await connect();
      const start = adapter.startTransaction.bind(adapter);
      return Object.assign(adapter, { startTransaction: async (...level: Parameters<typeof start>) => inTurn(await start(...level)) });
    },
  });
}

function inTurn(transaction: Transaction): Transaction {
  let last: Promise<unknown> = Promise.resolve();
  const waiting =
    <Asked extends unknown[], Answer>(ask: (...asked: Asked) => Promise<Answer>) =>
    (...asked: Asked): Promise<Answer> => {
      const answer = last.then(() => ask(...asked));
      last = answer.catch(() => {});
      return answer;
    };
  return Object.assign(transaction, {
    queryRaw: waiting(transaction.queryRaw.bind(transaction)),
    executeRaw: waiting(transaction.executeRaw.bind(transaction)),
    commit: waiting(transaction.commit.bind(transaction)),
    rollback: waiting(transaction.rollback.bind(transaction)),
  });
}
