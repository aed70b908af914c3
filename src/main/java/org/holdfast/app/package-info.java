/**
 * The use cases, shared by command line and desktop: what a person can ask for, in one place, with the clock, the paths
 * and the permissions that go with it.
 *
 * <p>May use every package of the core; knows nothing of options, columns, windows or keys. Returns records of the
 * packages below, so that callers need none of the border packages.
 */
package org.holdfast.app;
