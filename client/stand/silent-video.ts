const RECORDED_MS = 1500;

/** A picture of one colour that is drawn anew now and then, so that the recording has frames. */
const blankPicture = (): { stream: MediaStream; stop: () => void } | null => {
  const canvas = document.createElement('canvas');
  canvas.width = 16;
  canvas.height = 16;
  const context = canvas.getContext('2d');
  if (context === null || typeof canvas.captureStream !== 'function') return null;
  const paint = () => {
    context.fillStyle = '#000';
    context.fillRect(0, 0, 16, 16);
  };
  paint();
  const timer = setInterval(paint, 100);
  return { stream: canvas.captureStream(10), stop: () => clearInterval(timer) };
};

const silentSound = (): { stream: MediaStream; stop: () => void } | null => {
  if (typeof AudioContext === 'undefined') return null;
  const context = new AudioContext();
  const destination = context.createMediaStreamDestination();
  const gain = context.createGain();
  gain.gain.value = 0;
  const source = context.createConstantSource();
  source.connect(gain).connect(destination);
  source.start();
  return { stream: destination.stream, stop: () => void context.close() };
};

/**
 * Makes a black and silent film in the page itself, so that nothing has to be fetched: some systems keep the
 * screen on for a film with sound only.
 * @param recorded gets the film when it is made; never called where the browser cannot record
 * @returns the live picture to show meanwhile, or null where the browser cannot even do that
 */
export const recordSilence = (recorded: (film: Blob) => void): MediaStream | null => {
  const picture = blankPicture();
  if (picture === null) return null;
  const sound = silentSound();
  const stream = new MediaStream([
    ...picture.stream.getVideoTracks(),
    ...(sound?.stream.getAudioTracks() ?? []),
  ]);
  if (typeof MediaRecorder === 'undefined') return stream;
  const recorder = new MediaRecorder(stream);
  const parts: Blob[] = [];
  recorder.addEventListener('dataavailable', ({ data }) => parts.push(data));
  recorder.addEventListener('stop', () => {
    picture.stop();
    sound?.stop();
    for (const track of stream.getTracks()) track.stop();
    recorded(new Blob(parts, { type: recorder.mimeType }));
  });
  recorder.start();
  setTimeout(() => recorder.stop(), RECORDED_MS);
  return stream;
};
