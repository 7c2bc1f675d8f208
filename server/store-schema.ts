/** Steps from each version of the database to the next; a database knows its version (`user_version`). Never edit one that has been released: add. */
export const STORE_MIGRATIONS: readonly string[] = [
  `
  create table meta (name text primary key, value text not null) without rowid;
  create table bands (id text primary key, name text not null, made_ms real not null) without rowid;
  create table keys (hash blob primary key, band text not null, role text not null, made_ms real not null) without rowid;
  create index keys_of_band on keys (band, role);
  create table codes (band text primary key, code text not null unique) without rowid;
  create table updates (seq integer primary key, document text not null, data blob not null);
  create index updates_of_document on updates (document, seq);
  create table snapshots (document text primary key, data blob not null) without rowid;
  create table takes (band text not null, id text not null, chart text not null, called_ms real not null,
    data text not null, primary key (band, id)) without rowid;
  `,
  `
  create table holders (band text not null, member text not null, proof text not null,
    primary key (band, member)) without rowid;
  `,
];
