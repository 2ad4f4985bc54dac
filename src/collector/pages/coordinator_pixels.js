// A picture file as grey pixels. The browser opens it, in its sandbox, whatever its format; the collector only ever sees
// pixels.

const MOST_SIDE = 2000;  // px: a code on a phone's screen is still sharp, and a photograph is 3 MB

/** {width, height, grey: Uint8Array}. Rejects where the browser cannot open the file as a picture. */
export async function greyPixels(file) {
  const bitmap = await createImageBitmap(file);
  const scale = Math.min(1, MOST_SIDE / Math.max(bitmap.width, bitmap.height));
  const width = Math.max(1, Math.round(bitmap.width * scale));
  const height = Math.max(1, Math.round(bitmap.height * scale));
  const canvas = Object.assign(document.createElement('canvas'), { width, height });
  const context = canvas.getContext('2d', { willReadFrequently: true });
  context.imageSmoothingQuality = 'high';
  context.fillStyle = 'white';  // behind what is transparent
  context.fillRect(0, 0, width, height);
  context.drawImage(bitmap, 0, 0, width, height);
  bitmap.close();
  const { data } = context.getImageData(0, 0, width, height);
  const grey = new Uint8Array(width * height);
  for (let i = 0; i < grey.length; ++i) grey[i] = (data[4 * i] * 77 + data[4 * i + 1] * 150 + data[4 * i + 2] * 29) >> 8;
  return { width, height, grey };
}
