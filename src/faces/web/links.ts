/** Where the page is: #/ , #/describe , #/known , #/job/NAME , #/job/NAME/sheet/ID/ABOUT , #/job/NAME/records/CARD , ... */
export const jobLink = (name: string, ...rest: readonly string[]): string =>
  `#/${["job", name, ...rest].map(encodeURIComponent).join("/")}`;
export const placesOfHash = (): string[] => location.hash.replace(/^#\/?/, "").split("/").map(decodeURIComponent);
export const goTo = (hash: string): void => {
  location.hash = hash;
};
/** Goes to a job. */
export const openPage = (name: string): void => {
  location.hash = jobLink(name);
};
