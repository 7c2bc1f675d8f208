/** While a page or a part of it is on its way. */
export const Loading = () => (
  <p className="loading" role="status">
    One moment …
  </p>
);
