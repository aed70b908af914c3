/** The entry point. It alone knows both the command line and the desktop. */
package org.holdfast;
