/** Waits until it holds, up to 5 s. */
export const until = async (holds: () => boolean, what = 'it'): Promise<void> => {
  for (let tries = 0; tries < 500; tries++) {
    if (holds()) return;
    await new Promise((done) => setTimeout(done, 10));
  }
  throw new Error(`${what} did not come true within 5 s`);
};
