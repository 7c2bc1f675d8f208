/** What came of something that may fail for a reason a person should read. */
export type Result<Value, Failure> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly error: Failure };

export const ok = <Value>(value: Value): Result<Value, never> => ({ ok: true, value });
export const failed = <Failure>(error: Failure): Result<never, Failure> => ({ ok: false, error });
