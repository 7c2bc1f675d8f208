import { readChordHead } from './chord-head.ts';
import { type ChordParts, newChordParts } from './chord-parts.ts';
import { readChordTail } from './chord-tail.ts';
import { TextScanner } from './text-scanner.ts';

/**
 * The parts of the text between root and bass, in plain signs (`m7b5`, `7(b9 #11)`), or `null` where anything
 * in it cannot be read. First quality and main figure, then any number of suspensions, alterations,
 * additions and omissions.
 */
export function readChordParts(text: string): ChordParts | null {
  const scanner = new TextScanner(text);
  const parts = newChordParts();
  if (!readChordHead(scanner, parts)) return null;
  while (!scanner.atEnd) {
    if (!readChordTail(scanner, parts)) return null;
  }
  return parts;
}
