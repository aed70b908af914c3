package org.holdfast.architecture.trespass.construct;

import java.sql.Connection;

/** Speaks SQL outside the store. */
public record AsksDatabase(Connection connection) {}
