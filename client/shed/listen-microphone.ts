/** A microphone that is listened to: nothing of it is kept or sent, only how loud it is. */
export interface Listening {
  readonly close: () => void;
}

/** Below this it is as good as nothing, dB. */
export const SILENT_DB = -80;

/** How loud samples are: the root of their mean square, dB below full scale. */
export const levelDb = (samples: ArrayLike<number>): number => {
  let sum = 0;
  for (let at = 0; at < samples.length; at += 1) sum += (samples[at] ?? 0) ** 2;
  const rms = samples.length === 0 ? 0 : Math.sqrt(sum / samples.length);
  return Math.max(SILENT_DB, 20 * Math.log10(rms));
};

/** Whether this browser gives a microphone at all: only a page over https or of this machine may ask. */
export const hasMicrophone = (): boolean => navigator.mediaDevices?.getUserMedia !== undefined;

const SAMPLES = 2048;

/**
 * Listens until it is closed. Rejects where the person or the browser says no.
 * @param every called on every frame of the page with the level, dB
 */
export const listenMicrophone = async (every: (db: number) => void): Promise<Listening> => {
  const stream = await navigator.mediaDevices.getUserMedia({
    // What a telephone does to a voice would make a band sound silent.
    audio: { echoCancellation: false, noiseSuppression: false, autoGainControl: false },
  });
  const context = new AudioContext();
  const analyser = new AnalyserNode(context, { fftSize: SAMPLES });
  // Joined to nothing else: what is heard is not played.
  context.createMediaStreamSource(stream).connect(analyser);
  await context.resume();
  const samples = new Float32Array(SAMPLES);
  let frame = requestAnimationFrame(function listen() {
    analyser.getFloatTimeDomainData(samples);
    every(levelDb(samples));
    frame = requestAnimationFrame(listen);
  });
  return {
    close: () => {
      cancelAnimationFrame(frame);
      for (const track of stream.getTracks()) track.stop();
      context.close().catch((error: unknown) => console.warn('The microphone did not close.', error));
    },
  };
};
