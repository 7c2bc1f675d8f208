/** The part of the npm package `timesync` (1.0.11, which has no types) that the benchmark uses. */
declare module 'timesync/dist/timesync.js' {
  interface TimeSync {
    send: (to: string, request: { id: string }) => Promise<void>;
    receive: (from: string, answer: { id: string; result: number }) => void;
    on: (event: 'change', heard: (offset: number) => void) => void;
    sync: () => Promise<void>;
    destroy: () => void;
  }
  const timesync: {
    create: (options: {
      peers: string[];
      interval: number | null;
      delay: number;
      now: () => number;
    }) => TimeSync;
  };
  export default timesync;
}
