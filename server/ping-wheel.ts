/**
 * Who is to be pinged when: the members stand on a wheel of slots, and each turn visits one slot, so that ten
 * thousand connections are never all pinged at once. A member that was not heard since the visit before the
 * last is to be cut.
 *
 * With 10 slots and a turn a second every member is visited each 10 s, and a dead one is cut after 20 to 30 s.
 */
export interface PingWheel<Member> {
  readonly add: (member: Member) => void;
  readonly remove: (member: Member) => void;
  /** The member has said something, a pong or anything else. */
  readonly heard: (member: Member) => void;
  readonly turn: () => { readonly ping: readonly Member[]; readonly cut: readonly Member[] };
  readonly size: () => number;
}

/** Visits without a word after which a member is cut. */
const SILENT_VISITS = 2;

export const pingWheel = <Member>(slotCount: number): PingWheel<Member> => {
  const slots = Array.from({ length: slotCount }, () => new Set<Member>());
  const places = new Map<Member, { readonly slot: Set<Member>; silentVisits: number }>();
  let position = 0;
  let nextSlot = 0;
  return {
    add: (member) => {
      const slot = slots[nextSlot++ % slotCount];
      if (!slot || places.has(member)) return;
      slot.add(member);
      places.set(member, { slot, silentVisits: 0 });
    },
    remove: (member) => {
      places.get(member)?.slot.delete(member);
      places.delete(member);
    },
    heard: (member) => {
      const place = places.get(member);
      if (place) place.silentVisits = 0;
    },
    turn: () => {
      const slot = slots[position++ % slotCount] ?? new Set();
      const ping: Member[] = [];
      const cut: Member[] = [];
      for (const member of slot) {
        const place = places.get(member);
        if (!place) continue;
        if (place.silentVisits >= SILENT_VISITS) cut.push(member);
        else {
          place.silentVisits++;
          ping.push(member);
        }
      }
      return { ping, cut };
    },
    size: () => places.size,
  };
};
