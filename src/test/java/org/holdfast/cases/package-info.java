/** Where tests find the case files that are not part of the project. */
package org.holdfast.cases;
